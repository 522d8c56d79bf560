package heat

import (
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// Source is where heat comes from.
type Source string

const (
	Lights         Source = "lights"
	Fans           Source = "fans and motors"
	Controllers    Source = "controllers"
	Pumps          Source = "pumps"
	Dehumidifiers  Source = "dehumidifiers"
	Humidifiers    Source = "humidifiers"
	Heaters        Source = "heaters"
	Burners        Source = "fuel burners"
	CoolingFans    Source = "cooling equipment, indoor fans"
	OtherEquipment Source = "other equipment"
	Outlets        Source = "outlets"
	People         Source = "people"
	Plants         Source = "plants"
	Envelope       Source = "walls, roof and floor"
	Infiltration   Source = "infiltration"
	Ventilation    Source = "ventilation"
)

// Sources returns all sources in the order in which they are shown.
func Sources() []Source {
	return []Source{Lights, Fans, Controllers, Pumps, Dehumidifiers, Humidifiers, Heaters, Burners, CoolingFans,
		OtherEquipment, Outlets, People, Plants, Envelope, Infiltration, Ventilation}
}

// sourceOf returns the source that a load belongs to.
func sourceOf(l loads.Load) Source {
	switch l.Item.Table {
	case inventory.Fixtures:
		return Lights
	case inventory.Fans:
		return Fans
	case inventory.Controllers:
		return Controllers
	}
	switch l.Item.Kind {
	case inventory.Dehumidifier:
		return Dehumidifiers
	case inventory.Humidifier:
		return Humidifiers
	case inventory.Heater:
		return Heaters
	case inventory.CO2Burner:
		return Burners
	case inventory.AirConditioner:
		return CoolingFans
	case inventory.Pump:
		return Pumps
	case inventory.Outlet:
		return Outlets
	}
	return OtherEquipment
}
