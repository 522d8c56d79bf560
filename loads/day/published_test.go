package day_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// TestPublishedBills works every row of testdata/published/bills.toml.
func TestPublishedBills(t *testing.T) {
	list := outside.Cases(t, "bills.toml")
	require.Equal(t, 17, len(list), "rows lost or added without being counted")
	for _, c := range list {
		t.Run(c.ID, func(t *testing.T) {
			have := worked(t, c.In)
			for _, want := range []string{"total", "energy", "demand", "billed", "percent"} {
				if c.Want.Has(want) {
					require.Contains(t, have, want)
					c.Number(t, want, have[want])
				}
			}
			assert.Empty(t, c.Unread())
		})
	}
}

func worked(t *testing.T, in *published.Values) map[string]float64 {
	of, err := published.Get[string](in, "of")
	require.NoError(t, err)
	number := func(key string) float64 {
		if !in.Has(key) {
			return 0
		}
		x, err := in.Number(key)
		require.NoError(t, err)
		return x
	}
	switch of {
	case "bill":
		tariff := inventory.Tariff{Demand: units.Is(units.Money(number("kw_price")))}
		var use day.Use
		for _, price := range numbers(t, in, "price") {
			tariff.Energy = append(tariff.Energy, inventory.EnergyPrice{Price: units.Money(price)})
		}
		for _, kwh := range numbers(t, in, "kwh") {
			use.At = append(use.At, units.Energy(kwh))
		}
		use.Demand = units.Times(units.Kilowatt, number("kw"))
		b := day.BillOf(tariff, use)
		return map[string]float64{"total": float64(b.Total), "energy": float64(b.EnergyCost), "demand": float64(b.DemandCost)}
	case "ratchet":
		p := day.Billed(units.Power(number("kw")), units.Power(number("highest")), units.Ratio(number("ratchet")))
		return map[string]float64{"billed": float64(p)}
	case "load-factor":
		lf, ok := day.LoadFactor(units.Energy(number("kwh")), units.Times(units.Kilowatt, number("kw")), number("days")*24).Get()
		require.True(t, ok)
		return map[string]float64{"percent": float64(lf) * 100}
	}
	s := newSite()
	from := numbers(t, in, "begins")
	for i, kw := range numbers(t, in, "kw") {
		at := clock.Minute(from[i]) * clock.Hour
		s.equipment(inventory.Other, "", units.Times(units.Kilowatt, kw), between(at, at+clock.Hour))
	}
	s.inv.Tariff = inventory.Tariff{Energy: []inventory.EnergyPrice{{}}, Demand: units.Is(units.Money(number("kw_price")))}
	c, ok := s.day().Cost.Get()
	require.True(t, ok)
	return map[string]float64{"demand": float64(c.Demand)}
}

func numbers(t *testing.T, in *published.Values, key string) []float64 {
	list, err := published.Get[[]any](in, key)
	require.NoError(t, err)
	var out []float64
	for _, x := range list {
		switch x := x.(type) {
		case int64:
			out = append(out, float64(x))
		case float64:
			out = append(out, x)
		default:
			require.Fail(t, "not a number", "%v", x)
		}
	}
	return out
}
