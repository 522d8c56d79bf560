package nec

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// The rule on receptacle ratings says in numbers what the table says in words.
func TestReceptaclesOnACircuitAreThoseOfTheTable(t *testing.T) {
	_, tables := codes.TablesIn("2023", readTables())
	rows := 0
	for _, table := range tables {
		if table.ID != "receptacle-rating" {
			continue
		}
		for _, r := range table.Rows {
			rows++
			circuit, err := units.Parse[units.Current](r.Key)
			require.NoError(t, err)
			words := map[units.Current]string{15: "15 A or less", 20: "15 or 20 A", 30: "30 A", 40: "40 or 50 A", 50: "50 A"}
			assert.Equal(t, words[circuit], r.Text[0])
			assert.NotEmpty(t, receptaclesOn(circuit))
			for _, a := range receptaclesOn(circuit) {
				assert.Contains(t, r.Text[0], units.Round(float64(a), 0))
			}
		}
	}
	assert.Equal(t, 5, rows)
}

// A clause holds until the next one's year; before the first the rule does not
// exist; what was not seen for 2026 is from memory there.
func TestClausesSpreadOverTheEditions(t *testing.T) {
	c := clauses(clause{since: "2020", at: "410.184"}, clause{since: "2026", at: "410.184(A), (B)", in26: true})
	assert.NotContains(t, c, "2017")
	assert.Equal(t, "410.184", c["2020"][0].At)
	assert.Equal(t, "410.184", c["2023"][0].At)
	assert.Equal(t, "410.184(A), (B)", c["2026"][0].At)
	assert.Equal(t, steps.Seen, c["2026"][0].How)
	assert.Equal(t, steps.Recalled, always("210.20(A)")["2026"][0].How)
	assert.Equal(t, steps.Seen, always("210.20(A)")["2023"][0].How)
	assert.Equal(t, "NEC 2023 210.20(A)", always("210.20(A)")["2023"][0].String())
}

func TestADirectoryNameTellsAPurpose(t *testing.T) {
	for name, tells := range map[string]bool{
		"plug 3": false, "plug-3": false, "Outlets": false, "misc": false, "bobby's room": false, "circuit 12": false,
		"LP1-7": true, "12": true, "flower row 2": true, "veg-room-lights": true, "new pump": true,
	} {
		f := circuitNamed(name)
		v := circuitDirectory().Judge(f)
		assert.Equal(t, tells, v.State.String() == "holds", name)
	}
}

func circuitNamed(name string) *codes.Facts {
	f := codes.NewFacts("circuits.x", "circuit x")
	codes.Put(f, codes.CircuitName, name)
	codes.Put(f, codes.Existing, true)
	return f
}

func TestTheDwellingRuleNamesWhatItFound(t *testing.T) {
	f := codes.NewFacts("circuits.x", "bar on circuit x")
	codes.Put(f, codes.Profiled, Profiles()[2])
	codes.Put(f, codes.Dwelling, true)
	codes.Put(f, codes.Volts, 240*units.Volt)
	codes.Put(f, codes.Corded, true)
	codes.Put(f, codes.UnitVA, 900*units.VoltAmpere)
	codes.Put(f, codes.IsLuminaire, true)
	assert.Contains(t, dwellingVoltage().Judge(f).Says, "a luminaire on 240 V")
	codes.Put(f, codes.IsLuminaire, false)
	assert.Contains(t, dwellingVoltage().Judge(f).Says, "a plug-in load of 900 VA, not more than 1,440 VA on 240 V")
	assert.Contains(t, dwellingVoltage().Judge(f).Remedy, "ask the authority having jurisdiction whether the room is part of the dwelling unit")
}

// A motor's breaker is above its conductor for the motor's start alone: what stops
// another load there is not the rating, which a larger permitted one would cure.
func TestAMotorsBreakerIsNoBranchRatingToBeReplaced(t *testing.T) {
	f := codes.NewFacts("circuits.x", "circuit x")
	codes.Put(f, codes.Profiled, Profiles()[2])
	codes.Put(f, codes.BreakerAmps, 25*units.Ampere)
	codes.Put(f, codes.Individual, false)
	codes.Put(f, codes.DeviceFor, "feed-pump")
	v := branchRating().Judge(f)
	assert.Contains(t, v.Says, "nothing else goes on it")
	assert.NotContains(t, v.Says+v.Remedy, "30")
	assert.Contains(t, v.Remedy, "leave feed-pump alone")
	codes.Put(f, codes.DeviceFor, "")
	assert.Contains(t, branchRating().Judge(f).Says, "such circuits are of 10, 15, 20, 30, 40, 50 A")
}

// A remedy may not be read as leave to go up to what the wire would carry.
func TestASmallerBreakerIsSmaller(t *testing.T) {
	assert.Contains(t, string(codes.SmallerBreaker), "smaller")
	assert.NotContains(t, string(codes.SmallerBreaker), "conductor")
}
