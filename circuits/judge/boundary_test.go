package judge_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// boundary is a rule with one fact exactly at its limit, and the smallest step
// beyond it.
type boundary struct {
	rule       string
	why        string
	known      facts
	fact       codes.Fact
	at, beyond any
}

type facts map[codes.Fact]any

// hair is a step that no meter would show and no rounding would make.
const hair = 1e-6

const (
	amps = units.Current(1)
	mA   = units.Milliampere
)

func receptacle(name string) codes.Receptacle {
	p, _ := book.Profile(book.Default)
	r, ok := p.ReceptacleNamed(name)
	if !ok {
		panic(name)
	}
	return r
}

func circuitBoundaries() []boundary {
	load := facts{codes.BreakerAmps: 20 * amps, codes.ContinuousAmps: 0 * amps, codes.OtherAmps: 0 * amps, codes.MarkedAmps: 0 * amps, codes.FullRated: false}
	ninths := units.Current(0)
	for range 9 {
		ninths += units.Current(16) / 9
	}
	several := facts{codes.Individual: false, codes.FeedsCorded: true, codes.ByEquipment: false}
	alone := facts{codes.Individual: true, codes.FeedsCorded: true, codes.ByEquipment: false}
	wire := facts{codes.WireTableAmps: 20 * amps, codes.WireCorrected: 21 * amps, codes.ContinuousAmps: 0 * amps, codes.OtherAmps: 0 * amps,
		codes.MarkedAmps: 0 * amps, codes.LoadAmps: 10 * amps, codes.FullRated: false, codes.ByEquipment: false, codes.BreakerAmps: 20 * amps}
	neutral := facts{codes.NeutralCounted: true, codes.WireUncounted: 24.6 * amps, codes.WireCorrected: 21 * amps, codes.WireTableAmps: 25 * amps, codes.LoadAmps: 16 * amps,
		codes.BreakerAmps: 20 * amps, codes.Individual: false, codes.FeedsCorded: true, codes.ByEquipment: false}
	return []boundary{
		{"continuous-load", "16 A continuous ask for 20 A", load, codes.ContinuousAmps, 16 * amps, 16*amps + hair},
		{"continuous-load", "nine loads of 16/9 A add up to 16.000000000000004 A, which is noise", load, codes.ContinuousAmps, ninths, ninths + hair},
		{"continuous-load", "12 A continuous leave 5 A for the rest", load.with(codes.ContinuousAmps, 12*amps), codes.OtherAmps, 5 * amps, 5*amps + hair},
		{"continuous-load", "listed at 100 %", load.with(codes.FullRated, true), codes.ContinuousAmps, 20 * amps, 20*amps + hair},
		{"continuous-load", "a nameplate's ampacity is not enlarged", load, codes.MarkedAmps, 20 * amps, 20*amps + hair},
		{"fixed-heating", "the listing at 100 % does not help a heater", load.with(codes.FullRated, true), codes.HeaterAmps, 16 * amps, 16*amps + hair},
		{"dwelling-voltage", "120 V between conductors", facts{codes.Dwelling: true, codes.IsLuminaire: true, codes.Corded: true, codes.UnitVA: 600 * units.VoltAmpere},
			codes.Volts, 120 * units.Volt, 120*units.Volt + hair},
		{"device-protects-conductor", "several receptacles: nothing is rounded up", several.with(codes.WireAmps, 25*amps), codes.BreakerAmps, 25 * amps, 30 * amps},
		{"device-protects-conductor", "one receptacle: the next standard rating", alone.with(codes.BreakerAmps, 25*amps), codes.WireAmps, 20*amps + hair, 20 * amps},
		{"device-protects-conductor", "two 500 kcmil, 760 A, behind 800 A", alone.with(codes.WireAmps, 760*amps), codes.BreakerAmps, 800 * amps, 1000 * amps},
		{"device-protects-conductor", "three 500 kcmil, 1140 A, not behind 1200 A", alone.with(codes.BreakerAmps, 1200*amps), codes.WireAmps, 1200 * amps, 1140 * amps},
		{"small-conductor", "12 AWG copper", facts{codes.WireSize: "12 AWG", codes.WireMaterial: "copper", codes.ByEquipment: false}, codes.BreakerAmps, 20 * amps, 25 * amps},
		{"small-conductor", "10 AWG aluminum", facts{codes.WireSize: "10 AWG", codes.WireMaterial: "aluminum", codes.ByEquipment: false}, codes.BreakerAmps, 25 * amps, 30 * amps},
		{"fastened-in-place", "half of 20 A", facts{codes.BreakerAmps: 20 * amps, codes.Individual: false, codes.FeedsLighting: true, codes.FeedsCorded: false, codes.FeedsFastened: true},
			codes.FastenedAmps, 10 * amps, 10*amps + hair},
		{"conductor-ampacity", "at the terminations", wire, codes.ContinuousAmps, 16 * amps, 16*amps + hair},
		{"conductor-ampacity", "along the run", wire, codes.LoadAmps, 21 * amps, 21*amps + hair},
		{"insulation-temperature", "TW", facts{codes.WireInsulation: "TW"}, codes.AmbientTemp, units.Temperature(55), units.Temperature(55) + hair},
		{"insulation-temperature", "THHN", facts{codes.WireInsulation: "THHN"}, codes.AmbientTemp, units.Temperature(85), units.Temperature(85) + hair},
		{"neutral-counted", "the breaker on several receptacles", neutral, codes.WireCorrected, 20 * amps, 20*amps - hair},
		{"neutral-counted", "the load", neutral.with(codes.BreakerAmps, 15*amps), codes.LoadAmps, 21 * amps, 21*amps + hair},
		{"neutral-counted", "one receptacle: the next standard rating", neutral.with(codes.Individual, true).with(codes.LoadAmps, 10*amps), codes.WireCorrected, 15*amps + hair, 15 * amps},
		{"raceway-fill", "40 %", facts{codes.RacewayGiven: true, codes.RacewayLimit: units.Ratio(0.4), codes.RacewayName: "1/2 in EMT", codes.RacewayEnough: "3/4 in", codes.RacewayRests: []steps.Cite{}},
			codes.RacewayShare, units.Ratio(0.4), units.Ratio(0.4) + hair},
		{"ground-size", "a device of 20 A", facts{codes.GroundMaterial: "copper", codes.GroundNeeded: "", codes.BreakerAmps: 20 * amps}, codes.GroundSize, "12 AWG", "14 AWG"},
		{"ground-size", "300 A, 250 kcmil enlarged to 350: 2 AWG, 3 AWG is too small", facts{codes.GroundMaterial: "copper", codes.GroundNeeded: "2 AWG", codes.BreakerAmps: 300 * amps},
			codes.GroundSize, "2 AWG", "3 AWG"},
		{"ground-size", "no larger than the circuit conductors", facts{codes.GroundMaterial: "copper", codes.GroundNeeded: "", codes.BreakerAmps: 30 * amps, codes.WireSize: "12 AWG"},
			codes.GroundSize, "12 AWG", "14 AWG"},
		{"voltage-drop-branch", "3 %", facts{codes.DropLimit: units.Ratio(0.03)}, codes.DropShare, units.Ratio(0.03), units.Ratio(0.03) + hair},
		{"voltage-drop-total", "5 % in all", facts{codes.FedThrough: true, codes.FeederDrop: units.Ratio(0.02)}, codes.DropShare, units.Ratio(0.03), units.Ratio(0.03) + hair},
		{"receptacle-rating", "the one receptacle of a 20 A circuit", facts{codes.BreakerAmps: 20 * amps, codes.Individual: true, codes.FeedsCorded: true},
			codes.ReceptacleKind, receptacle("5-20"), receptacle("5-15")},
		{"receptacle-rating", "several behind 20 A", facts{codes.BreakerAmps: 20 * amps, codes.Individual: false, codes.FeedsCorded: true},
			codes.ReceptacleKind, receptacle("6-15"), receptacle("6-30")},
		{"receptacle-rating", "several behind 30 A", facts{codes.BreakerAmps: 30 * amps, codes.Individual: false, codes.FeedsCorded: true},
			codes.ReceptacleKind, receptacle("L6-30"), receptacle("L6-20")},
		{"receptacle-configuration", "three-phase", facts{codes.FeedsCorded: true, codes.Volts: 208 * units.Volt, codes.PhaseCount: 3, codes.ToNeutral: false},
			codes.ReceptacleKind, receptacle("L15-20"), receptacle("L6-20")},
		{"receptacle-configuration", "277 V to neutral", facts{codes.FeedsCorded: true, codes.Volts: 277 * units.Volt, codes.PhaseCount: 1, codes.ToNeutral: true},
			codes.ReceptacleKind, receptacle("L7-20"), receptacle("L6-20")},
		{"leakage-sum", "4 mA", facts{codes.FeedsLighting: true, codes.Guarded: true, codes.TripAmps: 4 * mA},
			codes.LeakageAmps, 4 * mA, 4*mA + 1e-9},
		{"inrush-count", "the maker's count", facts{codes.FeedsLighting: true, codes.InrushDetail: ""}, codes.InrushShare, units.Ratio(1), units.Ratio(1) + hair},
		{"measured-load", "5 % beyond what is explained", facts{codes.PredictedAmps: 10 * amps}, codes.MeasuredAmps, 10.5 * amps, 10.5*amps + hair},
	}
}

func loadBoundaries() []boundary {
	chain := facts{codes.UnitCount: 12, codes.Linked: true, codes.LinkRating: 10 * amps, codes.LinkMost: 8, codes.LinkUnits: 4, codes.IsContinuous: true, codes.Volts: 240 * units.Volt}
	return []boundary{
		{"maker-max-breaker", "20 A", facts{codes.MakerBreaker: 20 * amps, codes.BehindBox: false}, codes.BreakerAmps, 20 * amps, 25 * amps},
		{"nameplate-device", "60 A", facts{codes.MaxDevice: 60 * amps}, codes.BreakerAmps, 60 * amps, 70 * amps},
		{"nameplate-conductor", "44 A", facts{codes.MinCircuit: 44 * amps}, codes.WireAmps, 44 * amps, 44*amps - hair},
		{"motor-device", "5 hp at 230 V: 28 A, 70 A", facts{codes.MotorFLC: 28 * amps, codes.ByEquipment: true}, codes.BreakerAmps, 70 * amps, 80 * amps},
		{"motor-device", "7.5 hp at 230 V on three phases: 22 A, 55 A, the next rating is 60 A", facts{codes.MotorFLC: 22 * amps, codes.ByEquipment: true}, codes.BreakerAmps, 60 * amps, 70 * amps},
		{"motor-conductor", "28 A ask for 35 A", facts{codes.MotorFLC: 28 * amps, codes.ByEquipment: true}, codes.WireAmps, 35 * amps, 35*amps - hair},
		{"lighting-over-20A", "the maker's device", facts{codes.IsLuminaire: true, codes.Dwelling: false, codes.BehindBox: false, codes.BreakerAmps: 30 * amps},
			codes.MakerBreaker, 30 * amps, 30*amps - hair},
		{"one-plug-load", "16 A of 20 A", facts{codes.BreakerAmps: 20 * amps, codes.Corded: true, codes.BehindBox: false}, codes.UnitAmps, 16 * amps, 16*amps + hair},
		{"one-plug-load", "24 A of 30 A", facts{codes.BreakerAmps: 30 * amps, codes.Corded: true, codes.BehindBox: false}, codes.UnitAmps, 24 * amps, 24*amps + hair},
		{"link-chain", "80 % of 10 A for hours", chain, codes.UnitAmps, 2 * amps, 2*amps + hair},
		{"link-chain", "all of 10 A for a short time", chain.with(codes.IsContinuous, false), codes.UnitAmps, 2.5 * amps, 2.5*amps + hair},
		{"link-chain", "the maker's count", chain.with(codes.UnitAmps, 0.5*amps), codes.LinkUnits, 8, 9},
		{"receptacle-load", "12 A of a 15 A receptacle", facts{codes.ReceptacleKind: receptacle("5-15"), codes.Individual: false, codes.Corded: true, codes.BehindBox: false},
			codes.UnitAmps, 12 * amps, 12*amps + hair},
	}
}

func otherBoundaries() []boundary {
	main := facts{codes.MainAmps: 100 * amps, codes.MainIs: "main", codes.HasCircuits: true, codes.FeederIsMain: false}
	box := facts{codes.Outlets: 4, codes.OutletRating: 15 * amps, codes.FeedRating: 50 * amps, codes.UnitCount: 1}
	return []boundary{
		{"terminal-column", "75 C", nil, codes.Terminals, units.Temperature(75), units.Temperature(75) + hair},
		{"controller-outlets", "4", box, codes.OutletsUsed, 4, 5},
		{"controller-outlet-rating", "12 A of 15 A", box, codes.LargestUnit, 12 * amps, 12*amps + hair},
		{"controller-contactor", "30 A", facts{codes.ContactRating: 30 * amps, codes.ContactDetail: ""}, codes.ContactAmps, 30 * amps, 30*amps + hair},
		{"controller-feed", "50 A", box, codes.FeedDemand, 50 * amps, 50*amps + hair},
		{"controller-feed", "two boxes", box.with(codes.UnitCount, 2), codes.FeedDemand, 100 * amps, 100*amps + hair},
		{"panel-spaces", "24", facts{codes.Spaces: 24, codes.HasCircuits: true}, codes.SpacesUsed, 24, 25},
		{"panel-main", "100 A", main, codes.RequiredAmps, 100 * amps, 100*amps + hair},
		{"panel-bus", "125 A", facts{codes.BusAmps: 125 * amps}, codes.AheadAmps, 125 * amps, 125*amps + hair},
		{"measured-peak", "the rating", main.with(codes.PeakAmps, 60*amps).with(codes.NewAmps, 25*amps), codes.RequiredAmps, 100 * amps, 100*amps + hair},
		{"peak-record", "a year", facts{codes.PeakAmps: 60 * amps}, codes.PeakMonths, 12, 11},
		{"feeder-device", "60 A", facts{codes.BreakerAmps: 60 * amps}, codes.RequiredAmps, 60 * amps, 60*amps + hair},
		{"feeder-conductor", "55 A", facts{codes.WireTableAmps: 55 * amps, codes.WireCorrected: 75 * amps, codes.LoadAmps: 40 * amps}, codes.RequiredAmps, 55 * amps, 55*amps + hair},
		{"feeder-protection", "the next standard rating above 55 A", facts{codes.WireAmps: 55 * amps}, codes.BreakerAmps, 60 * amps, 70 * amps},
		{"feeder-neutral-counted", "the next standard rating above 60 A", facts{codes.NeutralCounted: true, codes.WireUncounted: 75 * amps, codes.WireTableAmps: 65 * amps,
			codes.LoadAmps: 40 * amps, codes.BreakerAmps: 70 * amps}, codes.WireCorrected, 60*amps + hair, 60 * amps},
		{"voltage-drop-feeder", "3 %", facts{codes.DropLimit: units.Ratio(0.03)}, codes.DropShare, units.Ratio(0.03), units.Ratio(0.03) + hair},
		{"transformer-capacity", "15 kVA", facts{codes.TransformerVA: 15 * units.KVA}, codes.ThroughVA, 15 * units.KVA, 15*units.KVA + 0.01},
		{"transformer-device", "45 kVA at 480 V: 54.13 A, 125 % is 67.66 A, the next rating 70 A", facts{codes.RatedPrimary: 54.13 * amps}, codes.BreakerAmps, 70 * amps, 80 * amps},
		{"transformer-device", "250 % where a main of 150 A protects its 124.9 A", facts{codes.RatedPrimary: 54.13 * amps, codes.RatedSecondary: 124.9 * amps, codes.MainAmps: 150 * amps},
			codes.BreakerAmps, 125 * amps, 150 * amps},
		{"unfed-load", "none", facts{codes.UnitCount: 5, codes.UnplacedReason: "r", codes.UnplacedNeeds: "n"}, codes.Unplaced, 0, 1},
		{"spare-spaces", "a fifth of 24 is 4.8, so 19 may be taken", facts{codes.Spaces: 24}, codes.SpacesUsed, 19, 20},
		{"leg-balance", "15 %", facts{codes.LegSpread: 30 * amps, codes.MainAmps: 100 * amps, codes.LegDetail: "", codes.MostEven: false, codes.Outgoing: 3}, codes.LegImbalance, units.Ratio(0.15), units.Ratio(0.15) + hair},
		{"noncoincident-interlock", "no pair of rooms", nil, codes.Alternating, []string{}, []string{"a and b"}},
	}
}

// with returns the facts with one more.
func (f facts) with(name codes.Fact, v any) facts {
	out := facts{name: v}
	for n, x := range f {
		if n != name {
			out[n] = x
		}
	}
	return out
}

func TestALimitHoldsExactlyAndBreaksBeyond(t *testing.T) {
	p, ok := book.Profile(book.Default)
	require.True(t, ok)
	rules := map[string]codes.Rule{}
	for _, r := range p.Rules {
		rules[r.ID] = r
	}
	rows := append(append(circuitBoundaries(), loadBoundaries()...), otherBoundaries()...)
	for _, b := range rows {
		t.Run(b.rule+"/"+b.why, func(t *testing.T) {
			r, ok := rules[b.rule]
			require.True(t, ok)
			judge := func(v any) codes.Verdict {
				f := codes.NewFacts("circuits.x", "circuit x")
				codes.Put(f, codes.Profiled, p)
				for n, x := range b.known.with(b.fact, v) {
					codes.Put[any](f, n, x)
				}
				return r.Judge(f)
			}
			assert.Equal(t, codes.Holds.String(), judge(b.at).State.String(), "at the limit")
			beyond := judge(b.beyond)
			assert.Equal(t, codes.Broken.String(), beyond.State.String(), "beyond it")
			if a, l := beyond.Figures(); beyond.Limit.Unit != "" {
				assert.NotEqual(t, a, l, "the figures show that they differ")
			}
		})
	}
}
