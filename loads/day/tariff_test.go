package day_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// priced is a site of 1 kW all day with some prices: 730 kWh a month.
func priced(t *testing.T, prices ...inventory.EnergyPrice) (day.Cost, day.Day) {
	t.Helper()
	s := newSite()
	s.fans("", 1000)
	s.inv.Tariff = inventory.Tariff{Currency: "USD", Energy: prices}
	d := s.day()
	c, ok := d.Cost.Get()
	require.True(t, ok)
	return c, d
}

type price = inventory.EnergyPrice

func in(w string) units.Known[clock.Windows] { return units.Is(window(w)) }

func TestHourWithoutAPriceIsAGapAndNeverFree(t *testing.T) {
	c, d := priced(t, price{Price: 0.10, Hours: in("06:00-22:00")})
	require.Len(t, c.Gaps, 1)
	assert.Equal(t, "22:00-06:00", c.Gaps[0].When.String())
	assert.InDelta(t, 730.0*8/24, float64(c.Gaps[0].Energy), 1e-6)
	assert.InDelta(t, 730.0*8/24, float64(c.Summer.Unpriced), 1e-6)
	assert.InDelta(t, 730, float64(c.Summer.Energy), 1e-6, "the energy is whole, the cost is not")
	assert.InDelta(t, 0.10*730*16/24, float64(c.Month), 1e-6)
	assert.True(t, c.AtLeast)
	assert.Contains(t, strings.Join(d.Notes, "\n"), "no price for 22:00-06:00; 243 kWh a month fall there and are not priced")

	c, _ = priced(t, price{Price: 0.10, Season: units.Is("summer")}, price{Price: 0.08, Season: units.Is("winter"), Days: units.Is("weekdays")})
	require.Len(t, c.Gaps, 1)
	assert.Equal(t, "all hours on weekends in winter", c.Gaps[0].When.String())
	assert.InDelta(t, 730.0*2/7, float64(c.Gaps[0].Energy), 1e-6)
	assert.True(t, c.AtLeast)
}

func TestDemandPriceAloneLeavesAllEnergyUnpriced(t *testing.T) {
	s := newSite()
	s.fans("", 1000)
	s.inv.Tariff.Demand = units.Is(units.Money(12))
	c, ok := s.day().Cost.Get()
	require.True(t, ok)
	require.Len(t, c.Gaps, 1)
	assert.Equal(t, "all hours", c.Gaps[0].When.String())
	assert.InDelta(t, 12, float64(c.Month), 1e-9)
	assert.True(t, c.AtLeast)
}

func TestTheMoreSpecificPriceWins(t *testing.T) {
	for why, row := range map[string]struct {
		prices []price
		want   float64 // of a month, mean of the year
	}{
		"hours over all other hours": {[]price{{Price: 1}, {Price: 2, Hours: in("00:00-12:00")}}, 730 * 1.5},
		"hours over all other hours of a season": {[]price{{Price: 2, Hours: in("00:00-12:00")}, {Price: 1, Season: units.Is("summer")}, {Price: 1}},
			730 * 1.5},
		"season over all year": {[]price{{Price: 1}, {Price: 4, Season: units.Is("summer")}}, 730 * (4.0*4 + 8) / 12},
		"days over every day":  {[]price{{Price: 7}, {Price: 0, Days: units.Is("weekends")}}, 730 * 5},
		"season and days over season": {[]price{{Price: 3, Season: units.Is("summer")}, {Price: 10, Season: units.Is("summer"), Days: units.Is("weekends")},
			{Price: 0, Season: units.Is("winter")}}, 730 * (3.0*5 + 10*2) / 7 / 3},
		"hours within hours": {[]price{{Price: 1}, {Price: 2, Hours: in("00:00-12:00")}, {Price: 5, Hours: in("06:00-12:00")}}, 730 * (0.5 + 0.5 + 1.25)},
		"one price twice":    {[]price{{Price: 1, Season: units.Is("summer")}, {Price: 1, Days: units.Is("weekdays")}, {Price: 1}}, 730},
	} {
		c, _ := priced(t, row.prices...)
		assert.InDelta(t, row.want, float64(c.Month), 1e-6, why)
		assert.Empty(t, c.Overlaps, why)
		assert.Empty(t, c.Gaps, why)
	}
}

func TestOverlapIsReportedAndTheDearerTaken(t *testing.T) {
	a := price{Price: 2, Hours: in("06:00-14:00")}
	b := price{Price: 3, Hours: in("12:00-18:00")}
	for _, order := range [][]price{{a, b, {Price: 1}}, {b, a, {Price: 1}}} {
		c, d := priced(t, order...)
		require.Len(t, c.Overlaps, 1)
		assert.Equal(t, "12:00-14:00", c.Overlaps[0].When.String())
		assert.Equal(t, [2]units.Money{3, 2}, c.Overlaps[0].Prices)
		assert.InDelta(t, 730*(6.0*2+6*3+12)/24, float64(c.Month), 1e-6)
		assert.Contains(t, strings.Join(d.Notes, "\n"), "3 and 2 per kWh both hold 12:00-14:00 and neither is the more specific; the dearer is taken")
	}
	c, _ := priced(t, price{Price: 2, Season: units.Is("summer")}, price{Price: 3, Days: units.Is("weekdays")}, price{Price: 1})
	require.Len(t, c.Overlaps, 1)
	assert.Equal(t, "all hours on weekdays in summer", c.Overlaps[0].When.String())
	c, _ = priced(t, price{Price: 2}, price{Price: 3})
	require.Len(t, c.Overlaps, 1)
	assert.Equal(t, "all hours", c.Overlaps[0].When.String())
	assert.InDelta(t, 3*730, float64(c.Month), 1e-6)
}
