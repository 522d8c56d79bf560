package verify_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// profile reads the tables once; a profile is never changed.
var profile = sync.OnceValue(func() *codes.Profile {
	p, ok := book.Profile(book.Default)
	if !ok {
		panic("no profile " + book.Default)
	}
	return p
})

// site is a plan with what it was made from.
type site struct {
	inv  *inventory.Inventory
	set  loads.Set
	plan circuits.Plan
}

// read reads a file of the inventory and builds its loads.
func read(t *testing.T, name string, text []byte) site {
	inv, problems := inventory.Read(name, text, inventory.Vocabulary{})
	require.Empty(t, problems, name)
	p := profile()
	return site{inv: inv, set: loads.Build(inv, loads.CodeValues{Motors: p.FullLoadCurrent, Outlet: p.Branch.OutletVA, OutletCite: p.Branch.OutletCite})}
}

func planOf(t *testing.T, name string, text []byte) site {
	s := read(t, name, text)
	var err error
	s.plan, err = assign.Plan(s.inv, s.set, profile())
	require.NoError(t, err)
	return s
}

func (s site) complaints() []string { return verify.Plan(s.inv, s.set, profile(), s.plan) }

// bay is an invented site with something of everything that can be broken: two
// items that share a circuit, an item that accepts one voltage, equipment alone
// on its circuit, equipment that no circuit can feed, and a sub-panel.
const bay = `
[site]
name = "Invented bay"
use  = "commercial"

[panels.LP1]
system = "208Y/120 V 3ph"
main   = "200 A"
spaces = 42

[panels.SP1]
system = "208Y/120 V 3ph"
fed_by = "LP1"
spaces = 18
feeder = { length = "30 ft" }

[rooms.flower]
panel  = "LP1"
lights = "18:00-06:00"
run    = "40 ft"
spacing = "4 ft"

[rooms.veg]
panel  = "SP1"
lights = "06:00-18:00"
run    = "40 ft"
spacing = "4 ft"

[fixtures.bar-a]
room = "flower"
count = 2
power = "640 W"
power_factor = 0.98
voltage = "208 V"
wired = true

[fixtures.bar-b]
room = "flower"
count = 2
power = "640 W"
power_factor = 0.98
voltage = "208 V"
wired = true

[fixtures.spot]
room = "veg"
count = 2
power = "300 W"
power_factor = 0.98
voltage = "120 V"
wired = true

[fans.circulation]
room = "flower"
count = 3
power = "60 W"
power_factor = 0.6
voltage = "120 V"
hours = "always"

[equipment.dehumidifier]
kind = "dehumidifier"
room = "flower"
count = 2
power = "700 W"
voltage = "120 V"

[equipment.heater]
kind = "heater"
room = "veg"
count = 2
power = "4 kW"
voltage = "120 V"
max_breaker = "20 A"
`
