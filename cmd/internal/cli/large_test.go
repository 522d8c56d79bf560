package cli

import (
	"fmt"
	"strings"
)

// largeSite is an invented works of growing rooms with racks: buildings of ten
// rooms on a 480Y/277 service of their own, five lighting panels in each, two rooms
// to a panel. A full room holds a thousand small fixtures of thirty kinds, 20 to
// 107 W, so that a hundred thousand fixtures are a hundred rooms and sixty panels.
type largeSite struct {
	fixtures int
	listed   bool // every fixture has a table of its own, as a list of assets exports them
}

const (
	kindsOfLarge     = 30
	fixturesPerRoom  = 1000
	roomsPerPanel    = 2
	panelsPerService = 5
)

// toml writes the site's inventory.
func (l largeSite) toml() []byte {
	var b strings.Builder
	rooms := max(1, (l.fixtures+fixturesPerRoom-1)/fixturesPerRoom)
	b.WriteString("# An invented works of growing rooms with racks.\n\n[site]\nname = \"Millrace works\"\nuse  = \"commercial\"\ncode = \"nec-2023\"\n")
	panels := (rooms + roomsPerPanel - 1) / roomsPerPanel
	for p := range panels {
		service := p / panelsPerService
		if p%panelsPerService == 0 {
			fmt.Fprintf(&b, "\n[panels.S%d]\nsystem = \"480Y/277 V 3ph\"\nmain = \"1600 A\"\nbus = \"1600 A\"\nspaces = 42\n", service+1)
		}
		fmt.Fprintf(&b, "\n[panels.L%d]\nsystem = \"480Y/277 V 3ph\"\nmain = \"400 A\"\nbus = \"400 A\"\nspaces = 84\nfed_by = \"S%d\"\nfeeder = { length = \"%d ft\" }\n",
			p+1, service+1, 60+30*(p%panelsPerService))
	}
	for r := range rooms {
		lights := []string{"06:00-18:00", "18:00-06:00"}[r%2]
		fmt.Fprintf(&b, "\n[rooms.r%d]\npanel = \"L%d\"\nsize = \"60 ft x 40 ft x 14 ft\"\nlights = %q\nrun = \"%d ft\"\nspacing = \"4 ft\"\ninside = true\n",
			r+1, r/roomsPerPanel+1, lights, 40+10*(r%3))
	}
	left := l.fixtures
	for r := range rooms {
		here := min(left, fixturesPerRoom)
		left -= here
		for k, n := range mix(r, here) {
			switch {
			case n == 0:
			case l.listed:
				for i := range n {
					l.fixture(&b, fmt.Sprintf("strip-%d-r%d-%d", k+1, r+1, i+1), k, r, 1)
				}
			default:
				l.fixture(&b, fmt.Sprintf("strip-%d-r%d", k+1, r+1), k, r, n)
			}
		}
	}
	return []byte(b.String())
}

func (l largeSite) fixture(b *strings.Builder, name string, kind, room, count int) {
	fmt.Fprintf(b, "\n[fixtures.%s]\nroom = \"r%d\"\ncount = %d\npower = \"%d W\"\npower_factor = 0.%d\nvoltage = \"277 V\"\nwired = true\n",
		name, room+1, count, 20+3*kind, 90+kind%8)
}

// mix is how many fixtures of each kind a room holds. No two rooms are alike, so
// that nothing is gained by working an equal room out only once.
func mix(room, fixtures int) []int {
	out := make([]int, kindsOfLarge)
	shares, left := 0, fixtures
	share := func(k int) int { return 10 + (7*k+room*(k+3))%31 + room%(k+2) }
	for k := range out {
		shares += share(k)
	}
	for k := range out {
		out[k] = fixtures * share(k) / shares
		left -= out[k]
	}
	for k := range left {
		out[k%kindsOfLarge]++
	}
	return out
}
