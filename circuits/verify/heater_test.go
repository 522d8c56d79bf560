package verify_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

const heated = `
[site]
name = "heated"
use = "commercial"
code = "nec-2023"

[panels.LP1]
system = "120/240 V 1ph"
main   = "100 A"
spaces = 12

[rooms.flower]
panel  = "LP1"
lights = "18:00-06:00"

[fixtures.bar]
room = "flower"
count = 1
power = "720 W"
voltage = "120 V"

[equipment.heater]
kind = "heater"
room = "flower"
power = "720 W"
voltage = "120 V"
hours = "06:00-18:00"
dedicated = false

[circuits.LP1-1]
panel = "LP1"
spaces = [1]
breaker = "15 A"
feeds = { bar = 1, heater = 1 }
`

// A heater that the plan counts without its allowance, at a changeover or at all, is
// noticed: 1.25 · 6 A beside the lamp's.
func TestAHeaterWithoutItsAllowanceIsNoticed(t *testing.T) {
	s := planOf(t, "heated.toml", []byte(heated))
	assert.Empty(t, s.complaints())
	c := s.circuit("LP1-1")
	for i := range c.Loads {
		c.Loads[i].Always = false
	}
	s.settle(c)
	assert.Contains(t, strings.Join(s.complaints(), "\n"), "circuit LP1-1: the day asks for")
	for i := range c.Loads {
		c.Loads[i].Continuous = c.Loads[i].Item != "heater"
	}
	s.settle(c)
	assert.Contains(t, strings.Join(s.complaints(), "\n"), "heater is space heating and not continuous in the plan")
}
