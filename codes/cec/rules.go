package cec

import (
	"branchwork/codes"
	"branchwork/loads/steps"
)

// rules lists the rules of the family, one file each, in the order in which a
// reviewer works through a circuit. Rules that stand for one idea in several
// families have one id. Of limits that are used equally the first here binds.
func rules(b codes.TableSet) []codes.Rule {
	return []codes.Rule{
		// what a circuit carries
		loadCurrent(), continuousLoad(), loadVoltage(), dwellingVoltage(b),
		// its overcurrent device
		standardRating(), deviceProtectsConductor(), smallConductor(), makerMaxBreaker(), nameplateDevice(),
		// what it may feed
		luminaireDevice(b), lightingOver20A(b), outletCount(b), dedicatedEquipment(),
		// its conductors
		conductorAmpacity(), nameplateConductor(), insulationTemperature(), terminalColumn(),
		groundSize(), voltageDropBranch(), voltageDropTotal(),
		// its outlets
		receptacleRating(), receptacleConfiguration(), lockingReceptacle(), groundFaultReceptacle(),
		// controllers
		controllerOutlets(), controllerOutletRating(), controllerFeed(), controllerBranches(),
		// panels, feeders, service
		panelSpaces(), panelMain(), panelBus(), feederDevice(), feederConductor(), feederProtection(), voltageDropFeeder(),
		transformerCapacity(), transformerDevice(), measuredPeak(), noncoincidentInterlock(),
	}
}

// clauses gives every edition carried the same clause, and further ones that are
// held from memory: those whose figures decide the rule.
func clauses(at string, how steps.How, fromMemory ...string) map[string][]steps.Cite {
	out := map[string][]steps.Cite{}
	for _, e := range editions() {
		list := []steps.Cite{e.cite(at, how)}
		for _, further := range fromMemory {
			list = append(list, e.cite(further, recalled))
		}
		out[e.year] = list
	}
	return out
}

// ampacities is where the figures of every rule about conductors stand.
const ampacities = "Tables 2 and 4"

// marked is the clause of a rule that rests on what is read off equipment, and
// those that its figures rest on beside that.
func marked(beside ...string) map[string][]steps.Cite {
	out := map[string][]steps.Cite{}
	for _, e := range editions() {
		list := []steps.Cite{marking()}
		for _, at := range beside {
			list = append(list, e.cite(at, seen))
		}
		out[e.year] = list
	}
	return out
}
