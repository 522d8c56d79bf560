package heat

import (
	"branchwork/loads/air"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// leastFallF is the smallest difference between intake and set point at which
// ventilation is worth planning, in °F. Common practice, no source.
const leastFallF = 5

// ventilation finds the air flow that would hold the set point without machines on the
// summer design day, or why none can.
//
// The heat to carry off is what is left dry after the plants have evaporated their
// water, without the exhaust itself. The flow is the largest that any hour asks for.
func (m *model) ventilation(r *Room) {
	none := func(why string) {
		r.Airflow, r.AirflowHumid = units.Unknown[units.Airflow](why), units.Unknown[units.Airflow](why)
	}
	if why := m.closed(); why != "" {
		none(why)
		return
	}
	var most units.Airflow
	var worst Hour
	for _, h := range r.Summer.Hours {
		intake, ok := h.Around.Get()
		if !ok {
			none("the outdoor design temperature is not given")
			return
		}
		q := h.Sensible - h.Part(Ventilation).Sensible
		if q <= 0 {
			continue
		}
		v, ok := AirflowFor(q, rise(h.SetPoint, intake), m.against)
		if !ok {
			none("the air drawn in is as warm as the set point or warmer (" + degrees(intake) + " against " + degrees(h.SetPoint) +
				" at " + clockHour(h.At) + " on the summer design day): those hours need mechanical cooling")
			return
		}
		if v > most {
			most, worst = v, h
		}
	}
	r.Airflow = units.Is(most)
	if most == 0 {
		r.AirflowHumid = units.Is(units.Airflow(0))
		return
	}
	intake, _ := worst.Around.Get()
	m.work.Add(steps.Result("air flow that holds the set point", "Q / (1.08 · (p/p₀) · (t room − t intake))", most, "CFM", seen("hvac-talk-85048", ""),
		steps.In("Q", (worst.Sensible-worst.Part(Ventilation).Sensible).BTUPerHour(), "BTU/h"), steps.In("p/p₀", m.against, ""),
		steps.In("t room", worst.SetPoint.Fahrenheit(), "°F"), steps.In("t intake", intake.Fahrenheit(), "°F")))
	if r.AirflowHardly = float64(rise(worst.SetPoint, intake))*9/5 < leastFallF; r.AirflowHardly {
		m.note("the air drawn in is less than 5 °F cooler than the set point at %s: a flow of %s is hardly practical", clockHour(worst.At), most)
	}
	if m.room.Inside {
		m.note("air for ventilation is drawn from the building around, which then has to carry the heat")
	}
	if v, ok := m.room.Exhaust.Get(); ok && units.Exceeds(most, v) {
		m.note("the exhaust of %s is less than the %s that would hold the set point", v, most)
	}
	r.AirflowHumid = m.humidityFlow(r.Summer)
}

// humidityFlow returns the flow that carries off the water of every hour.
//
//	V = w · v / (W room − W intake)      v the volume of room air per mass of dry air
//
// Source: mass balance; ASHRAE Fundamentals 2017 ch. 1 (seen).
func (m *model) humidityFlow(d Day) units.Known[units.Airflow] {
	var most units.Airflow
	var working steps.Step
	outside := m.surroundings(d.Name)
	for i, h := range d.Hours {
		q := h.Vapour - h.Part(Ventilation).Latent
		if q <= 0 {
			continue
		}
		x, ok := outside[i].ratio.Get()
		if !ok {
			return units.Unknown[units.Airflow](outside[i].ratio.Why())
		}
		lit := m.lit[i]
		inside := m.humidity(lit)
		one := air.DryAir(units.CFM, air.VolumeOf(m.setPoint(lit), inside, m.pressure)).Carries(inside - x)
		if one <= 0 {
			m.note("the air drawn in at %s holds as much water as the room may: ventilation cannot hold its humidity", clockHour(h.At))
			return units.Unknown[units.Airflow]("the air drawn in holds as much water as the room may")
		}
		water := m.latentAt(lit).Water(q)
		if v := units.Airflow(units.Per(water, one)); v > most {
			most = v
			working = steps.Result("air flow that carries off the water", "w · v / (W room − W intake)", v, "CFM", air.VolumeCite(),
				steps.In("w", water/24, "L/h"), steps.In("W room", inside, "lb/lb"), steps.In("W intake", x, "lb/lb"))
		}
	}
	if most > 0 {
		m.work.Add(working)
	}
	return units.Is(most)
}

// closed says why a room is not ventilated, empty where it may be.
func (m *model) closed() string {
	for _, l := range m.loads {
		if l.Item.Kind == inventory.CO2Burner {
			return "the room is enriched with carbon dioxide, which ventilation would throw away"
		}
	}
	if m.cooled() && !m.room.Exhaust.Known() {
		return "the room has cooling equipment and no exhaust: it is planned closed"
	}
	return ""
}

func degrees(t units.Temperature) string { return units.Round(t.Fahrenheit(), 1) + " °F" }
