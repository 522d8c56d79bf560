package nec

// notCovered lists what the profile does not check, in plain words.
func notCovered(e edition) []string {
	list := []string{
		"amendments of the state, county or city: they govern over the code as published",
		"the dwelling's load calculation and its demand factors: never applied to grow equipment",
		"fault current and the interrupting rating of devices",
		"arc-fault protection, surge protection, emergency and standby supplies",
		"hazardous places: stored solvents, extraction, fuel gas",
		"wiring methods and supports, boxes and their fill, depth of burial",
		"copper-clad aluminum, also where it is allowed on 10 A circuits",
		"multiconductor cables other than NM-B, flexible cords, and conductors in free air",
		"the exceptions to branch ratings above 50 A",
		"the secondary of transformers: conductors, overcurrent protection, grounding (240.21(C), 250.30, from memory)",
		"the grounding electrode and bonding",
	}
	switch e.year {
	case "2017":
		list = append(list, "receptacle protection of 2017 (210.8) is held from memory; horticultural lighting had no clause of its own before 2020")
	case "2026":
		list = append(list,
			"changes of 2026 other than Article 120, 410.184, the 10 A circuits and the place of the 125 % allowance: clause numbers not seen in a source are cited as from memory",
			"the dwelling's lighting load of 2 VA per square foot of 2026")
	}
	return list
}
