package cec

// notCovered lists what the profile does not check, in plain words.
func notCovered() []string {
	return []string{
		"no purchased copy of the code was at hand: clauses and values were seen in public pages, mostly on the 2021 edition, or are from memory, and each says which",
		"the amendments of the province or territory, which decides the edition: Ontario and Quebec publish codes of their own",
		"motors by Section 28: their conductors, devices and overload protection, and the tables of motor currents; state the current on the nameplate, and a motor counts as any other load",
		"transformers: the ratings made and the device ahead of one are not held, so state both; no device is planned for one, and conductors and protection of the secondary are not worked out",
		"measured demand of an existing service, demand factors, and the load calculation of dwellings",
		"fixed heating by Section 62: a heater counts as continuous load and no more",
		"raceway fill and trade sizes, and conductors in free air with their lower share of 85 and 70 %",
		"reactance: voltage drop is worked out on resistance at 75 C, which tells too little for conductors of 1/0 AWG and larger at a power factor below one",
		"voltage drop with loads that never run together: the loads of the worst state of the day are taken, the code takes what is connected",
		"other limits of voltage drop that the 2018 and later editions may have inside dwellings",
		"column 2 of Table 16 for circuits enlarged for voltage drop: their bonding conductors grow in proportion to area, which is no less, but may be a size less in aluminum at 175 and 200 A and where heat or bundling enlarged the circuit as well",
		"next-size-up protection by Table 13: nothing is rounded up",
		"receptacles near sinks and tubs and outside dwellings, and multi-outlet strips counted by their length",
		"one configuration on two voltages in one building: 208 and 240 V receptacles of series 6 take each other's plugs",
		"hours that would show a load not to be continuous: it may be counted as continuous all the same, unless the file says that it is not",
		"whether a shed or garage counts as part of the dwelling",
		"high-leg delta systems, panel directories and service equipment markings",
		"fault current and the interrupting rating of devices, arc-fault protection, hazardous places, wiring methods and supports",
	}
}
