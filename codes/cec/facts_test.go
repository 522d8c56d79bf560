package cec_test

import (
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/loads/units"
)

// named returns a rule of the profile.
func named(t require.TestingT, p *codes.Profile, id string) codes.Rule {
	for _, r := range p.Rules {
		if r.ID == id {
			return r
		}
	}
	require.Fail(t, "no rule "+id)
	return codes.Rule{}
}

func receptacle(p *codes.Profile, name string) codes.Receptacle {
	r, ok := p.ReceptacleNamed(name)
	if !ok {
		panic("no receptacle " + name)
	}
	return r
}

// circuit is the facts of an invented sound circuit and its load: 16 A of
// luminaires on cords, 20 A at 240 V on 12 AWG, in a shop, with everything known
// that a rule of a circuit or of a load may ask.
func circuit(p *codes.Profile) *codes.Facts {
	f := codes.NewFacts("circuits.x", "circuit x")
	codes.Put(f, codes.Profiled, p)
	codes.Put(f, codes.Dwelling, false)
	codes.Put(f, codes.Existing, true)
	codes.Put(f, codes.BreakerAmps, units.Current(20))
	codes.Put(f, codes.FullRated, false)
	codes.Put(f, codes.ContinuousAmps, units.Current(16))
	codes.Put(f, codes.OtherAmps, units.Current(0))
	codes.Put(f, codes.MarkedAmps, units.Current(0))
	codes.Put(f, codes.LoadAmps, units.Current(16))
	codes.Put(f, codes.LoadList, []codes.Piece{{Item: "bar", Count: 4, Each: 5}})
	codes.Put(f, codes.Volts, units.Voltage(240))
	codes.Put(f, codes.PhaseCount, 1)
	codes.Put(f, codes.ToNeutral, false)
	codes.Put(f, codes.Individual, false)
	codes.Put(f, codes.FeedsLighting, true)
	codes.Put(f, codes.FeedsCorded, true)
	codes.Put(f, codes.ByEquipment, false)
	codes.Put(f, codes.BehindBox, false)
	codes.Put(f, codes.WireSize, "12 AWG")
	codes.Put(f, codes.WireMaterial, "copper")
	codes.Put(f, codes.WireInsulation, "T90")
	codes.Put(f, codes.WireAmps, units.Current(20))
	codes.Put(f, codes.WireTableAmps, units.Current(20))
	codes.Put(f, codes.WireCorrected, units.Current(30))
	codes.Put(f, codes.AmbientTemp, units.Temperature(30))
	codes.Put(f, codes.GroundSize, "14 AWG")
	codes.Put(f, codes.GroundMaterial, "copper")
	codes.Put(f, codes.DropShare, units.Ratio(0.03))
	codes.Put(f, codes.FeederDrop, units.Ratio(0.02))
	codes.Put(f, codes.FedThrough, true)
	codes.Put(f, codes.ReceptacleKind, receptacle(p, "6-20"))
	codes.Put(f, codes.Protected, codes.Protection{})
	codes.Put(f, codes.GroundFault, false)
	// of its load
	codes.Put(f, codes.UnitAmps, units.Current(4))
	codes.Put(f, codes.UnitVA, units.Apparent(960))
	codes.Put(f, codes.UnitCount, 4)
	codes.Put(f, codes.Corded, true)
	codes.Put(f, codes.IsLuminaire, true)
	codes.Put(f, codes.Accepts, true)
	codes.Put(f, codes.Accepted, "240 V")
	codes.Put(f, codes.AskedAlone, false)
	codes.Put(f, codes.AloneWhy, "equipment marked with a circuit takes that circuit to itself")
	return f
}

// board is the facts of an invented sound panel, its feeder, and a controller.
func board(p *codes.Profile) *codes.Facts {
	f := codes.NewFacts("panels.x", "panel x")
	codes.Put(f, codes.Profiled, p)
	codes.Put(f, codes.SpacesUsed, 12)
	codes.Put(f, codes.Spaces, 12)
	codes.Put(f, codes.HasCircuits, true)
	codes.Put(f, codes.FeederIsMain, false)
	codes.Put(f, codes.MainAmps, units.Current(100))
	codes.Put(f, codes.MainIs, "main")
	codes.Put(f, codes.AheadAmps, units.Current(100))
	codes.Put(f, codes.BusAmps, units.Current(100))
	codes.Put(f, codes.RequiredAmps, units.Current(100))
	codes.Put(f, codes.Alternating, []string{})
	codes.Put(f, codes.LoadAmps, units.Current(80))
	codes.Put(f, codes.BreakerAmps, units.Current(100))
	codes.Put(f, codes.WireAmps, units.Current(100))
	codes.Put(f, codes.WireTableAmps, units.Current(100))
	codes.Put(f, codes.WireCorrected, units.Current(80))
	codes.Put(f, codes.DropShare, units.Ratio(0.03))
	codes.Put(f, codes.TransformerVA, units.Apparent(30000))
	codes.Put(f, codes.ThroughVA, units.Apparent(30000))
	codes.Put(f, codes.Terminals, units.Temperature(75))
	// of a controller
	codes.Put(f, codes.UnitCount, 1)
	codes.Put(f, codes.OutletsUsed, 8)
	codes.Put(f, codes.Outlets, 8)
	codes.Put(f, codes.OutletRating, units.Current(20))
	codes.Put(f, codes.FeedRating, units.Current(20))
	codes.Put(f, codes.FeedDemand, units.Current(20))
	codes.Put(f, codes.LargestUnit, units.Current(16))
	codes.Put(f, codes.LargestItem, "bar")
	return f
}
