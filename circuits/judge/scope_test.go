package judge_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/loads/units"
)

// scope is a case in which a rule concerns its subject or does not.
type scope struct {
	rule  string
	why   string
	known facts
	want  codes.State
}

func scopes() []scope {
	home := facts{codes.Dwelling: true, codes.Volts: 240 * units.Volt, codes.IsLuminaire: false, codes.Corded: true, codes.UnitVA: 1440 * units.VoltAmpere}
	half := facts{codes.BreakerAmps: 20 * amps, codes.Individual: false, codes.FeedsLighting: true, codes.FeedsCorded: true, codes.FeedsFastened: true, codes.FastenedAmps: 16 * amps}
	wire := facts{codes.WireAmps: 21 * amps, codes.BreakerAmps: 25 * amps, codes.Individual: false, codes.FeedsCorded: true, codes.ByEquipment: false}
	lamp := facts{codes.BreakerAmps: 30 * amps, codes.IsLuminaire: true, codes.Dwelling: false, codes.BehindBox: false, codes.MakerBreaker: 20 * amps}
	plug := facts{codes.BreakerAmps: 20 * amps, codes.Corded: true, codes.UnitAmps: 17 * amps, codes.BehindBox: false}
	rec := facts{codes.ReceptacleKind: receptacle("5-15"), codes.Individual: false, codes.Corded: true, codes.UnitAmps: 13 * amps, codes.BehindBox: false}
	many := facts{codes.BreakerAmps: 30 * amps, codes.Individual: false, codes.FeedsLighting: true, codes.FeedsCorded: true, codes.Dwelling: true}
	motor := facts{codes.MotorFLC: 16 * amps, codes.ByEquipment: true, codes.BreakerAmps: 50 * amps, codes.WireAmps: 15 * amps}
	need := codes.Protection{Needed: true, Class: "Class A GFCI", Why: "w"}
	need.Cite.At = "410.184"
	other := need
	other.Cite.At = "210.8(B)"
	lights := facts{codes.Protected: need, codes.GroundFault: false}
	leak := facts{codes.FeedsLighting: true, codes.Guarded: true, codes.LeakageAmps: 5 * mA, codes.TripAmps: 4 * mA}
	alone := facts{codes.UsuallyAlone: true, codes.AskedAlone: false, codes.Individual: false, codes.AloneWhy: "w", codes.UnitCount: 1}
	panel := facts{codes.MainAmps: 20 * amps, codes.MainIs: "main", codes.RequiredAmps: 30 * amps, codes.HasCircuits: true, codes.FeederIsMain: false}
	legs := facts{codes.LegImbalance: units.Ratio(0.5), codes.LegSpread: 30 * amps, codes.MainAmps: 100 * amps, codes.LegDetail: "", codes.MostEven: false, codes.Outgoing: 3}
	fits := facts{codes.PlugKind: receptacle("6-15"), codes.ReceptacleKind: receptacle("6-20"), codes.BehindBox: false}
	box := facts{codes.Outlets: 4, codes.OutletsUsed: 5, codes.FeedRating: 50 * amps, codes.OutletRating: 15 * amps, codes.LargestUnit: 13 * amps, codes.LargestItem: "bar",
		codes.FeedDemand: 60 * amps, codes.UnitCount: 1}
	relay := facts{codes.OutletsUsed: 5, codes.LargestUnit: 13 * amps, codes.FeedDemand: 60 * amps, codes.UnitCount: 1}
	shared := facts{codes.NeutralWith: []string{"a", "b"}, codes.OnePanel: true, codes.LegsDiffer: true, codes.Neighbours: true, codes.OneHandle: true}
	neutral := facts{codes.NeutralCounted: true, codes.WireUncounted: 24.6 * amps, codes.WireCorrected: 19.68 * amps, codes.WireTableAmps: 25 * amps, codes.LoadAmps: 16 * amps,
		codes.BreakerAmps: 20 * amps, codes.Individual: false, codes.FeedsCorded: true, codes.ByEquipment: false}
	chain := facts{codes.UnitCount: 4, codes.Linked: true, codes.LinkRating: 10 * amps, codes.LinkUnits: 4, codes.UnitAmps: 2 * amps, codes.IsContinuous: true, codes.Volts: 240 * units.Volt}
	return []scope{
		{"multiwire-circuit", "a neutral of its own", facts{codes.NeutralWith: []string{}}, codes.NotAsked},
		{"multiwire-circuit", "neighbours behind one handle", shared, codes.Holds},
		{"multiwire-circuit", "on two panels", shared.with(codes.OnePanel, false), codes.Broken},
		{"multiwire-circuit", "on one leg", shared.with(codes.LegsDiffer, false), codes.Broken},
		{"multiwire-circuit", "apart", shared.with(codes.Neighbours, false), codes.Broken},
		{"multiwire-circuit", "each with a handle of its own", shared.with(codes.OneHandle, false), codes.Broken},
		{"neutral-counted", "holds without the neutral only", neutral, codes.Broken},
		{"neutral-counted", "the neutral does not count", neutral.with(codes.NeutralCounted, false), codes.NotAsked},
		{"neutral-counted", "short whatever counts: the ampacity rules say so", neutral.with(codes.LoadAmps, 25*amps), codes.NotAsked},
		{"neutral-counted", "the device is set by a nameplate or a motor", neutral.with(codes.ByEquipment, true), codes.Holds},
		{"link-chain", "not linked", facts{codes.Linked: false}, codes.NotAsked},
		{"link-chain", "within the inlet's rating, the maker's count not given", chain, codes.CannotTell},
		{"link-chain", "beyond the inlet's rating, whatever the maker's count", chain.with(codes.UnitAmps, 3*amps), codes.Broken},
		{"link-chain", "within both", chain.with(codes.LinkMost, 4), codes.Holds},
		{"link-chain", "a chain is no longer than what its circuit feeds", chain.with(codes.LinkMost, 4).with(codes.LinkUnits, 9), codes.Holds},
		{"raceway-fill", "the file names none", facts{codes.RacewayGiven: false}, codes.NotAsked},
		{"controller-contactor", "its rating is not given", facts{codes.ContactAmps: 10 * amps}, codes.CannotTell},
		{"dwelling-voltage", "a plug-in load of 1,440 VA", home, codes.Broken},
		{"dwelling-voltage", "a larger plug-in load", home.with(codes.UnitVA, 1441*units.VoltAmpere), codes.NotAsked},
		{"dwelling-voltage", "a small load wired permanently", home.with(codes.Corded, false), codes.NotAsked},
		{"dwelling-voltage", "a luminaire wired permanently, however large", home.with(codes.Corded, false).with(codes.IsLuminaire, true).with(codes.UnitVA, 9000*units.VoltAmpere), codes.Broken},
		{"dwelling-voltage", "not a dwelling", home.with(codes.Dwelling, false), codes.NotAsked},
		{"fastened-in-place", "beside luminaires and plugs", half, codes.Broken},
		{"fastened-in-place", "beside luminaires only", half.with(codes.FeedsCorded, false), codes.Broken},
		{"fastened-in-place", "beside plugs only", half.with(codes.FeedsLighting, false), codes.Broken},
		{"fastened-in-place", "with nothing else", half.with(codes.FeedsLighting, false).with(codes.FeedsCorded, false), codes.NotAsked},
		{"fastened-in-place", "a 30 A circuit", half.with(codes.BreakerAmps, 30*amps), codes.NotAsked},
		{"fastened-in-place", "an individual circuit", half.with(codes.Individual, true), codes.NotAsked},
		{"fastened-in-place", "nothing is fastened", half.with(codes.FeedsFastened, false), codes.NotAsked},
		{"device-protects-conductor", "several receptacles", wire, codes.Broken},
		{"device-protects-conductor", "several luminaires wired permanently may be rounded up", wire.with(codes.FeedsCorded, false), codes.Holds},
		{"device-protects-conductor", "one receptacle may be rounded up", wire.with(codes.Individual, true), codes.Holds},
		{"device-protects-conductor", "a nameplate or a motor sets the device", wire.with(codes.ByEquipment, true), codes.NotAsked},
		{"small-conductor", "a nameplate or a motor sets the device", facts{codes.WireSize: "12 AWG", codes.WireMaterial: "copper", codes.BreakerAmps: 40 * amps, codes.ByEquipment: true}, codes.NotAsked},
		{"small-conductor", "a size without a limit", facts{codes.WireSize: "8 AWG", codes.WireMaterial: "copper", codes.BreakerAmps: 40 * amps, codes.ByEquipment: false}, codes.NotAsked},
		{"conductor-ampacity", "a nameplate or a motor has a test of its own", facts{codes.ByEquipment: true}, codes.NotAsked},
		{"branch-rating", "an individual circuit may have any rating", facts{codes.BreakerAmps: 25 * amps, codes.Individual: true}, codes.NotAsked},
		{"lighting-over-20A", "30 A, the maker allows 20 A", lamp, codes.Broken},
		{"lighting-over-20A", "20 A asks nothing", lamp.with(codes.BreakerAmps, 20*amps), codes.NotAsked},
		{"lighting-over-20A", "other equipment", lamp.with(codes.IsLuminaire, false), codes.NotAsked},
		{"lighting-over-20A", "dwellings may not have such circuits at all", lamp.with(codes.Dwelling, true), codes.NotAsked},
		{"lighting-over-20A", "behind a controller with branches of its own", lamp.with(codes.BehindBox, true), codes.NotAsked},
		{"maker-max-breaker", "behind a controller with branches of its own", lamp.with(codes.BehindBox, true), codes.NotAsked},
		{"permitted-loads", "luminaires of a dwelling on 30 A", many, codes.Broken},
		{"permitted-loads", "the same elsewhere", many.with(codes.Dwelling, false), codes.Holds},
		{"permitted-loads", "an individual circuit", many.with(codes.Individual, true), codes.NotAsked},
		{"permitted-loads", "luminaires on 10 A without receptacles", many.with(codes.BreakerAmps, 10*amps).with(codes.FeedsCorded, false), codes.Holds},
		{"permitted-loads", "equipment of a dwelling on 30 A", many.with(codes.FeedsLighting, false), codes.Holds},
		{"one-plug-load", "17 A on 20 A", plug, codes.Broken},
		{"one-plug-load", "wired permanently", plug.with(codes.Corded, false), codes.NotAsked},
		{"one-plug-load", "behind a controller with branches of its own", plug.with(codes.BehindBox, true), codes.NotAsked},
		{"one-plug-load", "a circuit above 30 A", plug.with(codes.BreakerAmps, 40*amps).with(codes.UnitAmps, 39*amps), codes.NotAsked},
		{"receptacle-load", "13 A on one of several 15 A receptacles", rec, codes.Broken},
		{"receptacle-load", "the one receptacle of a circuit", rec.with(codes.Individual, true), codes.NotAsked},
		{"receptacle-load", "wired permanently", rec.with(codes.Corded, false), codes.NotAsked},
		{"receptacle-load", "behind a controller with branches of its own", rec.with(codes.BehindBox, true), codes.NotAsked},
		{"receptacle-load", "a receptacle above 30 A", rec.with(codes.ReceptacleKind, receptacle("6-50")).with(codes.UnitAmps, 49*amps), codes.NotAsked},
		{"receptacle-rating", "nothing is plugged in", facts{codes.FeedsCorded: false}, codes.NotAsked},
		{"receptacle-configuration", "made for 240 V between legs, on a leg and neutral", facts{codes.FeedsCorded: true, codes.ReceptacleKind: receptacle("6-20"),
			codes.Volts: 240 * units.Volt, codes.PhaseCount: 1, codes.ToNeutral: true}, codes.Broken},
		{"receptacle-configuration", "made for 240 V between legs, between legs", facts{codes.FeedsCorded: true, codes.ReceptacleKind: receptacle("6-20"),
			codes.Volts: 240 * units.Volt, codes.PhaseCount: 1, codes.ToNeutral: false}, codes.Holds},
		{"receptacle-configuration", "nothing is plugged in", facts{codes.FeedsCorded: false}, codes.NotAsked},
		{"motor-device", "50 A before 16 A", motor, codes.Broken},
		{"motor-device", "marked with a device", motor.with(codes.MaxDevice, 50*amps), codes.NotAsked},
		{"motor-device", "among other loads", motor.with(codes.ByEquipment, false), codes.NotAsked},
		{"motor-conductor", "15 A of wire for 16 A", motor, codes.Broken},
		{"motor-conductor", "marked with a circuit", motor.with(codes.MinCircuit, 15*amps), codes.NotAsked},
		{"motor-conductor", "among other loads", motor.with(codes.ByEquipment, false), codes.NotAsked},
		{"ground-fault-lighting", "called for and not there", lights, codes.Broken},
		{"ground-fault-lighting", "called for and there", lights.with(codes.GroundFault, true), codes.Holds},
		{"ground-fault-lighting", "the receptacle rule calls for it", lights.with(codes.Protected, other), codes.NotAsked},
		{"ground-fault-lighting", "nothing calls for it", lights.with(codes.Protected, codes.Protection{}), codes.NotAsked},
		{"ground-fault-receptacle", "not there, in a place stated as wet", lights.with(codes.Protected, other).with(codes.WetPlace, "wet"), codes.Broken},
		{"ground-fault-receptacle", "not there, in a place stated as damp", lights.with(codes.Protected, other).with(codes.WetPlace, "damp"), codes.Broken},
		{"ground-fault-receptacle", "not there, the place not stated", lights.with(codes.Protected, other), codes.CannotTell},
		{"ground-fault-receptacle", "not there, in a dwelling", lights.with(codes.Protected, other).with(codes.WetPlace, "wet").with(codes.Dwelling, true), codes.CannotTell},
		{"ground-fault-receptacle", "whether it is called for hangs on a place that is not stated", lights.with(codes.Protected, codes.Protection{Open: "w"}), codes.CannotTell},
		{"ground-fault-receptacle", "there, whether it is called for or not", lights.with(codes.Protected, codes.Protection{Open: "w"}).with(codes.GroundFault, true), codes.NotAsked},
		{"ground-fault-receptacle", "there, the place not stated", lights.with(codes.Protected, other).with(codes.GroundFault, true), codes.Holds},
		{"ground-fault-receptacle", "the lighting rule calls for it", lights, codes.NotAsked},
		{"ground-fault-receptacle", "nothing calls for it", lights.with(codes.Protected, codes.Protection{}), codes.NotAsked},
		{"leakage-sum", "5 mA at a device of 4 mA", leak, codes.Broken},
		{"leakage-sum", "no such device", leak.with(codes.Guarded, false), codes.NotAsked},
		{"leakage-sum", "no luminaires", leak.with(codes.FeedsLighting, false), codes.NotAsked},
		{"inrush-count", "no luminaires", facts{codes.FeedsLighting: false}, codes.NotAsked},
		{"own-circuit", "usually alone and not", alone, codes.Broken},
		{"own-circuit", "alone", alone.with(codes.Individual, true), codes.Holds},
		{"own-circuit", "where one is demanded the code's rule asks", alone.with(codes.AskedAlone, true), codes.NotAsked},
		{"own-circuit", "small equipment", alone.with(codes.UsuallyAlone, false), codes.NotAsked},
		{"dedicated-equipment", "demanded and not given", alone.with(codes.AskedAlone, true), codes.Broken},
		{"dedicated-equipment", "demanded and given", alone.with(codes.AskedAlone, true).with(codes.Individual, true), codes.Holds},
		{"dedicated-equipment", "not demanded", alone, codes.NotAsked},
		{"life-support", "no luminaires", facts{codes.FeedsLighting: false, codes.FeedsLife: true}, codes.NotAsked},
		{"life-support", "luminaires alone", facts{codes.FeedsLighting: true, codes.FeedsLife: false}, codes.Holds},
		{"high-leg", "between two legs", facts{codes.ToNeutral: false, codes.OnHighLeg: true}, codes.NotAsked},
		{"high-leg", "to neutral on another leg", facts{codes.ToNeutral: true, codes.OnHighLeg: false}, codes.NotAsked},
		{"high-leg", "to neutral on the high leg", facts{codes.ToNeutral: true, codes.OnHighLeg: true, codes.Volts: 120 * units.Volt}, codes.Broken},
		{"circuit-directory", "a circuit on paper has no name yet", facts{codes.Existing: false, codes.CircuitName: "plug 3"}, codes.NotAsked},
		{"branch-wiring", "a circuit on paper", facts{codes.Existing: false}, codes.NotAsked},
		{"branch-wiring", "aluminum of 30 A", facts{codes.Existing: true, codes.WireSize: "8 AWG", codes.WireMaterial: "aluminum", codes.BreakerAmps: 30 * amps}, codes.Broken},
		{"branch-wiring", "aluminum of 40 A", facts{codes.Existing: true, codes.WireSize: "8 AWG", codes.WireMaterial: "aluminum", codes.BreakerAmps: 40 * amps}, codes.Holds},
		{"voltage-drop-total", "no feeder before it", facts{codes.FedThrough: false}, codes.NotAsked},
		{"panel-main", "30 A on 20 A", panel, codes.Broken},
		{"panel-main", "the feeder's breaker alone protects it", panel.with(codes.FeederIsMain, true), codes.NotAsked},
		{"panel-main", "a measured peak has a rule of its own", panel.with(codes.PeakAmps, 10*amps), codes.NotAsked},
		{"panel-main", "an empty panel", panel.with(codes.HasCircuits, false), codes.NotAsked},
		{"panel-spaces", "an empty panel", facts{codes.HasCircuits: false}, codes.NotAsked},
		{"panel-bus", "no rating is given: as the main", facts{codes.AheadAmps: 100 * amps}, codes.NotAsked},
		{"leg-balance", "30 A of 100 A", legs, codes.Broken},
		{"leg-balance", "of a layout that is proved to be the most even", legs.with(codes.MostEven, true), codes.NotAsked},
		{"leg-balance", "two circuits are as even as they are", legs.with(codes.Outgoing, 2), codes.NotAsked},
		{"leg-balance", "30 A of 200 A do not matter", legs.with(codes.MainAmps, 200*amps), codes.NotAsked},
		{"spare-spaces", "too few for what there is: the code's rule says so", facts{codes.Spaces: 12, codes.SpacesUsed: 14}, codes.NotAsked},
		{"plug-fits", "a 15 A plug in a 20 A receptacle", fits, codes.Holds},
		{"plug-fits", "a 20 A plug in a 15 A receptacle", fits.with(codes.PlugKind, receptacle("6-20")).with(codes.ReceptacleKind, receptacle("6-15")), codes.Broken},
		{"plug-fits", "a locking 15 A plug in a locking 20 A receptacle", fits.with(codes.PlugKind, receptacle("L6-15")).with(codes.ReceptacleKind, receptacle("L6-20")), codes.Broken},
		{"plug-fits", "another voltage", fits.with(codes.PlugKind, receptacle("5-15")), codes.Broken},
		{"plug-fits", "behind a controller with branches of its own", fits.with(codes.BehindBox, true), codes.NotAsked},
		{"controller-outlets", "five on four", box, codes.Broken},
		{"controller-outlets", "a relay that switches circuits", relay, codes.NotAsked},
		{"controller-outlet-rating", "a relay that switches circuits", relay, codes.NotAsked},
		{"controller-feed", "a relay that switches circuits", relay, codes.NotAsked},
		{"controller-branches", "a relay that switches circuits", relay, codes.NotAsked},
		{"controller-branches", "15 A outlets and a 50 A supply", box, codes.CannotTell},
		{"controller-branches", "15 A outlets and a 20 A supply", box.with(codes.FeedRating, 20*amps), codes.Holds},
		{"fixed-heating", "no heater", facts{codes.HeaterAmps: 0 * amps, codes.BreakerAmps: 20 * amps}, codes.NotAsked},
	}
}

func TestARuleConcernsWhatItSays(t *testing.T) {
	p := defaultProfile(t)
	rules := map[string]codes.Rule{}
	for _, r := range p.Rules {
		rules[r.ID] = r
	}
	for _, s := range scopes() {
		t.Run(s.rule+"/"+s.why, func(t *testing.T) {
			r, ok := rules[s.rule]
			require.True(t, ok)
			f := codes.NewFacts("circuits.x", "circuit x")
			codes.Put(f, codes.Profiled, p)
			for n, v := range s.known {
				codes.Put[any](f, n, v)
			}
			v := r.Judge(f)
			assert.Equal(t, s.want.String(), v.State.String(), v.Says)
		})
	}
}
