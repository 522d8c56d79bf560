package units

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestItemAcceptsTheNominalVoltagesOfItsLabel(t *testing.T) {
	wide := VoltageSet{Low: 100, High: 277}
	label := VoltageSet{List: []Voltage{115, 230}}
	for _, row := range []struct {
		set  VoltageSet
		v    Voltage
		want bool
		why  string
	}{
		{wide, 100, true, "the low end"},
		{wide, 277, true, "the high end"},
		{wide, 99, false, "below"},
		{wide, 347, false, "above"},
		{label, 120, true, "115 V is the 120 V class"},
		{label, 240, true, "230 V is the 240 V class"},
		{label, 208, false, "208 and 240 V are never one class"},
		{label, 277, false, "another class"},
		{VoltageSet{}, 120, false, "nothing accepts nothing"},
		{VoltageSet{List: []Voltage{48}}, 48, true, "a voltage of no class is itself"},
	} {
		assert.Equal(t, row.want, row.set.Accepts(row.v), row.why)
	}
}

func TestNominalClassesAreSymmetricAndApart(t *testing.T) {
	all := []Voltage{110, 115, 117, 120, 125, 200, 208, 220, 230, 240, 250, 265, 277, 347, 440, 460, 480, 575, 600}
	for _, a := range all {
		assert.True(t, SameNominal(a, a))
		for _, b := range all {
			assert.Equal(t, SameNominal(a, b), SameNominal(b, a))
			for _, c := range all {
				if SameNominal(a, b) && SameNominal(b, c) {
					assert.True(t, SameNominal(a, c), "%v %v %v", a, b, c)
				}
			}
		}
	}
	assert.False(t, SameNominal(208, 240))
	assert.False(t, SameNominal(240, 277))
}

func TestVoltagesArePrintedAsWritten(t *testing.T) {
	assert.Equal(t, "100-277 V", VoltageSet{Low: 100, High: 277}.String())
	assert.Equal(t, "120 V, 240 V", VoltageSet{List: []Voltage{120, 240}}.String())
	assert.Empty(t, VoltageSet{}.String())
}
