package nec

import (
	"branchwork/codes"
	"branchwork/loads/steps"
)

// rules lists the rules of the family, one file each, in the order in which a
// reviewer works through a circuit: what it must carry, what protects it, what
// it may feed, its conductors, its outlets; then controllers, panels, feeders
// and the service. Of limits that are used equally the first here binds.
func rules() []codes.Rule {
	return []codes.Rule{
		// what a circuit carries
		loadCurrent(), continuousLoad(), fixedHeating(), loadVoltage(), dwellingVoltage(),
		// its overcurrent device
		standardRating(), branchRating(), deviceProtectsConductor(), smallConductor(),
		makerMaxBreaker(), nameplateDevice(), motorDevice(),
		// what it may feed
		permittedLoads(), lightingOver20A(), onePlugLoad(), fastenedInPlace(), dedicatedEquipment(), linkChain(),
		// its conductors
		conductorAmpacity(), nameplateConductor(), motorConductor(), insulationTemperature(), terminalColumn(),
		neutralCounted(), multiwireCircuit(), racewayFill(), groundSize(), voltageDropBranch(), voltageDropTotal(),
		// its outlets
		receptacleRating(), receptacleLoad(), receptacleConfiguration(), groundFaultLighting(), groundFaultReceptacle(),
		highLeg(), circuitDirectory(),
		// controllers
		controllerOutlets(), controllerOutletRating(), controllerFeed(), controllerContactor(), controllerBranches(),
		// panels, feeders, service
		panelSpaces(), panelMain(), panelBus(), feederDevice(), feederConductor(), feederProtection(), feederNeutralCounted(), voltageDropFeeder(),
		transformerCapacity(), transformerDevice(), measuredPeak(), peakRecord(), noncoincidentInterlock(),
	}
}

// clause is where a rule stands from an edition on. How its substance was
// checked: seen in a source unless said.
type clause struct {
	since string
	at    string
	how   steps.How // empty: seen
	in26  bool      // seen for 2026 too
}

// clauses spreads clauses over the editions carried: each holds until the next
// one's year. Editions before the first do not have the rule. What was not seen
// for 2026 is cited there as from memory.
func clauses(list ...clause) map[string][]steps.Cite {
	out := map[string][]steps.Cite{}
	for _, e := range editions() {
		for _, c := range list {
			if !e.since(c.since) {
				continue
			}
			how := c.how
			if how == "" {
				how = steps.Seen
			}
			cite := e.cite(c.at, how)
			if c.in26 {
				cite = steps.Cite{Ref: ref, Edition: e.year, At: c.at, How: how}
			}
			out[e.year] = []steps.Cite{cite}
		}
	}
	return out
}

// always is a clause that every edition carries under one number.
func always(at string) map[string][]steps.Cite { return clauses(clause{since: "2017", at: at}) }

// recalled is one that was not seen in a source.
func recalled(at string) map[string][]steps.Cite {
	return clauses(clause{since: "2017", at: at, how: recall})
}

// recall marks a clause from memory.
const recall = steps.Recalled

// instructions is the clause by which equipment is installed and used as its
// listing, its marking and its instructions say.
func instructions() map[string][]steps.Cite { return always("110.3(B)") }

// with adds the same further cite to every edition of a rule.
func with(m map[string][]steps.Cite, more ...steps.Cite) map[string][]steps.Cite {
	for year := range m {
		m[year] = append(m[year], more...)
	}
	return m
}
