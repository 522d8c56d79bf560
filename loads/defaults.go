package loads

import (
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// motorEfficiency turns a motor's rated output into its input. Common practice,
// no source; small motors lie between 0.6 and 0.85.
const motorEfficiency = 0.8

var motorEfficiencyCite = steps.CommonPractice

// defaults are what is taken for a kind of item where the file is silent.
type defaults struct {
	category  Category
	pf        units.Ratio
	pfWhy     string
	pfCite    steps.Cite
	corded    bool
	nonLinear bool
}

// defaultsOf returns the defaults of an item's kind. Power factors: horticultural
// fixtures at the floor that the lighting qualification list sets; the rest from
// common practice, on the low side, because a low power factor means more
// current.
func defaultsOf(item *inventory.Item) defaults {
	practice := steps.CommonPractice
	switch item.Table {
	case inventory.Fixtures:
		return defaults{Lighting, 0.9, "the least that the lighting qualification list accepts is taken", dlcCite, true, true}
	case inventory.Fans:
		return defaults{AirMovement, 0.6, "small fans lie between 0.5 and 0.7", practice, true, false}
	case inventory.Controllers:
		return defaults{Control, 0.6, "small electronic supplies lie between 0.5 and 0.7", practice, true, true}
	}
	switch item.Kind {
	case inventory.Heater:
		return defaults{Climate, 1, "a resistance heater draws no reactive power", practice, false, false}
	case inventory.AirConditioner, inventory.Dehumidifier:
		return defaults{Climate, 0.9, "compressor equipment with its fans", practice, item.Kind == inventory.Dehumidifier, false}
	case inventory.Chiller:
		return defaults{Water, 0.85, "compressor equipment with its pump", practice, true, false}
	case inventory.Pump:
		return defaults{Water, 0.75, "small pump motors", practice, true, false}
	case inventory.Humidifier:
		return defaults{Water, 0.9, "small fans and transducers", practice, true, false}
	case inventory.CO2Burner:
		return defaults{Climate, 0.6, "ignition and valve only", practice, true, false}
	case inventory.Outlet:
		return defaults{Receptacles, 1, "the outlet's load is a figure in volt-amperes", practice, true, false}
	}
	return defaults{OtherLoads, 0.9, "unspecified equipment", practice, true, false}
}

var dlcCite = steps.Cite{Ref: "dlc-hort", At: "power factor", How: steps.Seen}
