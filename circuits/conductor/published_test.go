package conductor_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/conductor"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// rows runs every case of a file and fails where a case has a value that nobody
// looked at.
func rows(t *testing.T, name string, run func(row)) {
	t.Helper()
	list := outside.Cases(t, name)
	p, ok := book.Profile("nec-2023")
	require.True(t, ok)
	for _, c := range list {
		t.Run(c.ID, func(t *testing.T) {
			run(row{t, c, p})
			assert.Empty(t, c.Unread(), "values of the case that the test does not look at")
		})
	}
}

type row struct {
	t *testing.T
	outside.Case
	p *codes.Profile
}

func (r row) has(key string) bool  { return r.In.Has(key) }
func (r row) want(key string) bool { return r.Want.Has(key) }

func (r row) text(key, otherwise string) string {
	if !r.In.Has(key) {
		return otherwise
	}
	return must(r, func() (string, error) { return published.Get[string](r.In, key) })
}

func (r row) count(key string, otherwise int) int { return int(r.number(key, float64(otherwise))) }

func (r row) number(key string, otherwise float64) float64 {
	if !r.In.Has(key) {
		return otherwise
	}
	return must(r, func() (float64, error) { return r.In.Number(key) })
}

func (r row) flag(key string, otherwise bool) bool {
	if !r.In.Has(key) {
		return otherwise
	}
	return must(r, func() (bool, error) { return published.Get[bool](r.In, key) })
}

func must[T any](r row, get func() (T, error)) T {
	v, err := get()
	require.NoError(r.t, err)
	return v
}

// in returns an input with its unit, zero where the case has none.
func in[T units.Quantity](r row, key string) T {
	if !r.In.Has(key) {
		return 0
	}
	return must(r, func() (T, error) { return published.Quantity[T](r.In, key) })
}

func known[T units.Quantity](r row, key string) units.Known[T] {
	if !r.In.Has(key) {
		return units.Unknown[T]("")
	}
	return units.Is(in[T](r, key))
}

// near compares a result with the quantity wanted, where one is.
func near[T units.Quantity](r row, key string, got T) {
	outside.Near(r.t, r.Case, key, got)
}

// bare compares a number without a unit.
func bare(r row, key string, got float64) {
	r.Case.Number(r.t, key, got)
}

// named compares a name.
func named(r row, key, got string) {
	r.Case.Name(r.t, key, got)
}

// request builds the request that the inputs of a case describe.
func (r row) request() conductor.Request {
	q := conductor.Request{
		Continuous: in[units.Current](r, "continuous"), Other: in[units.Current](r, "other"),
		Material: r.text("material", ""), Insulation: r.text("insulation", ""),
		Ambient: in[units.Temperature](r, "ambient"), Terminals: known[units.Temperature](r, "terminals"),
		Carrying: r.count("carrying", 3), RoundUp: r.flag("round_up", true), SmallLimits: true,
	}
	if r.has("each") {
		q.Continuous = units.Times(in[units.Current](r, "each"), float64(r.count("count", 1)))
	}
	if r.has("volts") && r.has("continuous_va") {
		v := float64(in[units.Voltage](r, "volts"))
		q.Continuous = units.Current(float64(in[units.Apparent](r, "continuous_va")) / v)
		q.Other = units.Current(float64(in[units.Apparent](r, "other_va")) / v)
	}
	return q
}

func TestPublishedConductors(t *testing.T) {
	rows(t, "conductors.toml", func(r row) {
		q := r.request()
		switch {
		case r.has("plug"):
			r.plug()
			return
		case r.has("fastened"):
			circuit, fastened := in[units.Current](r, "circuit"), in[units.Current](r, "fastened")
			limit := units.Times(circuit, float64(r.p.Branch.Fastened))
			assert.False(t, units.Exceeds(fastened, limit))
			near(r, "fastened_limit", limit)
			near(r, "left", circuit-fastened)
			return
		case r.has("size"):
			c, err := conductor.Evaluate(r.text("size", ""), r.count("sets", 1), q, r.p, nil)
			require.NoError(r.t, err)
			near(r, "usable", c.UsableAmps)
			near(r, "protected", c.ProtectedAt)
			return
		case r.has("for_device"):
			q.Device = in[units.Current](r, "for_device")
			named(r, "conductor", smallestProtected(r, q, r.count("sets", 1)))
			return
		}
		required := r.p.Continuous.Required(q.Continuous, q.Other, false)
		near(r, "load", q.Continuous+q.Other)
		near(r, "required", required)
		if r.want("required_va") {
			near(r, "required_va", units.VA(in[units.Voltage](r, "volts"), required))
		}
		device, ok := r.p.Devices.Next(required)
		require.True(r.t, ok)
		near(r, "device", device)
		if r.want("conductor") {
			c, err := conductor.Select(q, r.p, nil)
			require.NoError(r.t, err)
			named(r, "conductor", c.Size)
			named(r, "governs", c.Governs)
		}
		if r.want("neutral") { // without the allowance: it lands on no device
			q.Other, q.Continuous = q.Continuous, 0
			c, err := conductor.Select(q, r.p, nil)
			require.NoError(r.t, err)
			named(r, "neutral", c.Size)
		}
	})
}

// plug finds the smallest branch circuit that one cord-and-plug load may be on.
func (r row) plug() {
	plug := in[units.Current](r, "plug")
	for _, rating := range r.p.Branch.Ratings {
		limit := rating
		if !units.Exceeds(rating, r.p.Branch.OnePlugUpTo) {
			limit = units.Times(rating, float64(r.p.Branch.OnePlug))
		}
		if !units.Exceeds(plug, limit) {
			near(r, "branch", rating)
			return
		}
	}
	r.t.Fail()
}

// smallestProtected finds the smallest size of so many sets that a device protects.
func smallestProtected(r row, q conductor.Request, sets int) string {
	for _, s := range r.p.Wires.From(r.p.Wires.ParallelMin) {
		c, err := conductor.Evaluate(s, sets, q, r.p, nil)
		require.NoError(r.t, err)
		if !units.Exceeds(q.Device, c.ProtectedAt) {
			return s
		}
	}
	return ""
}

func TestPublishedDerating(t *testing.T) {
	rows(t, "derating.toml", func(r row) {
		c, err := conductor.Evaluate(r.text("size", ""), r.count("sets", 1), r.request(), r.p, nil)
		require.NoError(r.t, err)
		near(r, "corrected", c.CorrectedAmps)
		near(r, "protected", c.ProtectedAt)
		bare(r, "factor", float64(c.Ambient))
	})
}

func TestPublishedGrounding(t *testing.T) {
	rows(t, "grounding.toml", func(r row) {
		g, err := conductor.GroundFor(r.p, in[units.Current](r, "device"), "copper",
			conductor.Conductors{Size: r.text("installed", ""), Sets: 1}, conductor.Conductors{Size: r.text("needed", ""), Sets: 1}, nil)
		require.NoError(r.t, err)
		bare(r, "needs", g.Needs)
		named(r, "ground", g.Size)
		assert.Equal(r.t, conductor.InProportion, g.Governs)
	})
}

func TestPublishedMotors(t *testing.T) {
	rows(t, "motors.toml", func(r row) {
		q := r.request()
		q.Continuous, q.SmallLimits = 0, false
		m := r.p.Motors
		switch {
		case r.has("nameplate"):
			q.Least, q.Device = in[units.Current](r, "nameplate"), in[units.Current](r, "largest")
			near(r, "breaker", q.Device)
		case r.has("compressor"):
			flc := in[units.Current](r, "compressor")
			q.Least = units.Times(flc, float64(m.Conductor))
			down, _ := r.p.Devices.Down(units.Times(flc, 1.75)) // 440.22(A): next size down
			up, _ := r.p.Devices.Down(units.Times(flc, 2.25))
			near(r, "breaker", down)
			near(r, "breaker_if_it_will_not_start", up)
		default:
			flc, cite, ok := r.p.FullLoadCurrent(in[units.Horsepower](r, "hp"), in[units.Voltage](r, "volts"), r.count("phases", 1))
			require.True(r.t, ok)
			assert.Equal(r.t, steps.Seen, cite.How)
			near(r, "flc", flc)
			n := float64(r.count("motors", 1))
			q.Least = units.Times(flc, float64(m.Conductor)+n-1) // 430.24: the others at 100 %
			r.device(flc)
		}
		near(r, "wire", q.Least)
		if r.want("conductor") {
			c, err := conductor.Select(q, r.p, nil)
			require.NoError(r.t, err)
			named(r, "conductor", c.Size)
		}
	})
}

// device checks the largest short-circuit device of a motor: the share of the
// table, then the next standard size up.
func (r row) device(flc units.Current) {
	kind := r.text("device", "inverse-time breaker")
	share := float64(r.p.Motors.Breaker)
	if kind != "inverse-time breaker" {
		for _, t := range r.p.Tables {
			if t.ID == "motor-device" {
				percent, _, ok := t.Value("single-phase, squirrel-cage, synchronous", kind)
				require.True(r.t, ok)
				share = percent / 100
			}
		}
	}
	most := units.Times(flc, share)
	near(r, "most", most)
	next, ok := r.p.Devices.Next(most)
	require.True(r.t, ok)
	near(r, "breaker", next)
}

func TestPublishedRaceways(t *testing.T) {
	rows(t, "conduit.toml", func(r row) {
		d := r.number("diameter", 0)
		f, err := conductor.Raceway(r.text("raceway", ""), []conductor.Wire{{Size: r.text("size", ""), Insulation: "THHN",
			Count: r.count("count", 0), Area: math.Pi / 4 * d * d}}, r.p, nil)
		require.NoError(r.t, err)
		named(r, "trade", f.Trade)
	})
}
