package inventory

// Kinds returns the kinds of [equipment.X].
func Kinds() []string {
	return []string{Dehumidifier, Humidifier, AirConditioner, Heater, Pump, Chiller, CO2Burner, Outlet, Other}
}

// Categories returns the categories of load that [plan].separate may name, in
// the order in which they are shown. Loads of two categories that are kept
// separate never share a circuit. Which item belongs where is decided with the
// other defaults of its kind, not here.
func Categories() []string {
	return []string{"lighting", "air movement", "control", "water", "climate", "outlets", "other"}
}
