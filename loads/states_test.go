package loads_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads"
	"branchwork/loads/clock"
)

func window(t *testing.T, s string) clock.Windows {
	t.Helper()
	w, err := clock.Parse(s)
	require.NoError(t, err)
	return w
}

func names(states []loads.State) []string {
	var out []string
	for _, s := range states {
		out = append(out, s.Name)
	}
	return out
}

func TestStatesOfATentNameLightsOnOffAndChangeover(t *testing.T) {
	list := []loads.Load{
		{Name: "light", Category: loads.Lighting, Hours: window(t, "18:00-06:00"), HoursKnown: true},
		{Name: "heater", Category: loads.Climate, Hours: window(t, "06:00-18:00"), HoursKnown: true},
		{Name: "fan", Category: loads.AirMovement, Hours: clock.Always(), HoursKnown: true},
	}
	states := loads.States(list)
	assert.Equal(t, []string{"lights off 06:00-18:00", "lights on 18:00-06:00", "changeover at 06:00"}, names(states))
	assert.Equal(t, []bool{true, true, true}, states[2].On)
	assert.Equal(t, []bool{true, true, false}, states[2].Brief, "the fan is on before and after")
}

func TestUnknownHoursAndNeverCountAsOn(t *testing.T) {
	list := []loads.Load{
		{Name: "light", Category: loads.Lighting, Hours: window(t, "18:00-06:00"), HoursKnown: true},
		{Name: "unknown", Hours: clock.Always()},
		{Name: "never", Hours: clock.Never(), HoursKnown: true},
	}
	for _, s := range loads.States(list) {
		assert.True(t, s.On[1] && s.On[2], s.Name)
	}
	assert.False(t, list[1].LongestRun().Known())
	assert.False(t, list[2].LongestRun().Known())
}

func TestEachSetOfLoadsIsNamedOnce(t *testing.T) {
	list := []loads.Load{
		{Name: "a", Category: loads.Lighting, Hours: window(t, "06:00-10:00").Union(window(t, "12:00-16:00")), HoursKnown: true},
		{Name: "b", Category: loads.AirMovement, Hours: clock.Always(), HoursKnown: true},
	}
	assert.Equal(t, []string{"lights on 06:00-10:00", "lights off 10:00-12:00"}, names(loads.States(list)))
	assert.Equal(t, []string{"all day"}, names(loads.States(list[1:])))
}
