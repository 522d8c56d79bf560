package inventory

import (
	"fmt"
	"strings"
)

// entry is a table of the starter file: the keys it sets. All other keys stand
// beside them as comments.
type entry struct {
	table, name string
	set         map[string]string
}

// starterSite is an invented bay: twelve bars, six fans, a climate controller
// and a dehumidifier on one 100 A panel.
func starterSite() []entry {
	return []entry{
		{"site", "", map[string]string{"name": `"Fernhill, bay 2"`, "use": `"commercial"`, "code": `"nec-2023"`}},
		{"panels", "LP1", map[string]string{"system": `"120/240 V 1ph"`, "main": `"100 A"`, "spaces": "24"}},
		{"rooms", "flower", map[string]string{"panel": `"LP1"`, "size": `"24 ft x 16 ft x 10 ft"`, "lights": `"06:00-18:00"`,
			"run": `"60 ft"`, "spacing": `"4 ft"`}},
		{Fixtures, "bar-640", map[string]string{"room": `"flower"`, "count": "12", "power": `"640 W"`, "power_factor": "0.98",
			"voltage": `"100-277 V"`, "plug": "true"}},
		{Fans, "oscillating", map[string]string{"room": `"flower"`, "count": "6", "power": `"55 W"`, "voltage": `"120 V"`,
			"hours": `"always"`, "plug": "true"}},
		{Controllers, "climate", map[string]string{"room": `"flower"`, "power": `"20 W"`, "voltage": `"120 V"`, "hours": `"always"`, "plug": "true"}},
		{Equipment, "dehumidifier", map[string]string{"kind": `"dehumidifier"`, "room": `"flower"`, "count": "1", "power": `"700 W"`,
			"voltage": `"120 V"`, "removes": `"130 pint/day"`, "plug": "true"}},
		{"circuits", "", nil},
		{"plan", "", map[string]string{"voltage": `"240 V"`}},
		{"tariff", "", nil},
	}
}

const starterHead = `# An inventory: one file that describes a site. The site in it is invented;
# change it until it is yours.
#
# A quantity is a text with its unit: "640 W", "30 ft", "84 F". Counts and
# factors are bare numbers. Times of day are "06:00", windows "18:00-06:00",
# "always" or "never". Each thing has a name of its own, by which the others
# refer to it: [fixtures.bar-640].
#
# A line that begins with # is a comment. Take the # away to use its key.
`

// starterHome is a circuit as most homes have it, beside one that a trade has.
const starterHome = `
# A circuit of a home, behind an ordinary outlet. branchwork check tells what it
# would still take, branchwork add whether one thing more may go on it.
# [circuits.house-8]
# panel = "LP1"
# spaces = [8]
# breaker = "15 A"                 # the rating on its handle
# conductor = "14 AWG copper NM-B" # not known: leave it out, it is not guessed from the breaker
# ground = "14 AWG copper"
# receptacle = "NEMA 5-15R"        # two upright slots and a round hole
# gfci = false                     # true where receptacle or breaker is marked GFCI
# feeds = { "bar-640" = 1 }        # what is plugged in
`

// Starter returns a commented inventory to begin with. It can be planned as it
// is; every key that it does not set stands in it as a comment with its
// meaning.
func Starter() []byte {
	var b strings.Builder
	b.WriteString(starterHead)
	for _, e := range starterSite() {
		t, _ := tableNamed(Schema(), e.table)
		fmt.Fprintf(&b, "\n# %s\n", starterTitle(t))
		off := ""
		if e.set == nil {
			off = "# "
		}
		name := e.name
		if name == "" {
			name = t.Sample
		}
		fmt.Fprintf(&b, "%s[%s]\n", off, dotted(t, name))
		for _, k := range t.Keys {
			starterKey(&b, k, e.set[k.Name])
		}
		if e.table == "circuits" {
			b.WriteString(starterHome)
		}
	}
	return []byte(b.String())
}

func starterTitle(t Table) string {
	switch {
	case t.Named && strings.HasPrefix(t.Help, "a "):
		return strings.ToUpper(t.Help[:1]) + t.Help[1:] + ". Write one such table for each."
	case t.Named:
		return strings.ToUpper(t.Help[:1]) + t.Help[1:] + ". Write one such table for each kind."
	}
	return strings.ToUpper(t.Help[:1]) + t.Help[1:] + "."
}

func dotted(t Table, name string) string {
	if t.Named {
		return t.Name + "." + name
	}
	return t.Name
}

// starterKey writes a key with its meaning at the end of the line.
func starterKey(b *strings.Builder, k Key, value string) {
	line := k.Name + " = " + value
	if value == "" {
		line = "# " + k.Name + " = " + k.Example
	}
	help := k.Help
	if len(k.Words) > 0 {
		help += ": " + quoted(k.Words)
	}
	switch {
	case value == "" && k.Required:
		help += " (required)"
	case value == "" && k.Default != "":
		help += " (left out: " + k.Default + ")"
	}
	fmt.Fprintf(b, "%-34s # %s\n", line, help)
}
