package inventory

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/units"
)

func TestStarterIsSoundAndWhatItClaimsToBe(t *testing.T) {
	inv := sound(t, "starter.toml", Starter())
	assert.Equal(t, Commercial, inv.Site.Use)
	require.Len(t, inv.Panels, 1)
	assert.Equal(t, "120/240 V 1ph", inv.Panels[0].System.Name)
	assert.Equal(t, units.Is(100*units.Ampere), inv.Panels[0].Main)
	assert.Equal(t, 12, item(t, inv, "bar-640").Count)
	assert.Equal(t, units.Is(240*units.Volt), inv.Plan.Voltage)
}

func TestStarterShowsEveryKey(t *testing.T) {
	text := string(Starter())
	for _, table := range Schema() {
		part := text[regexp.MustCompile(`(?m)^(# )?\[` + table.Name).FindStringIndex(text)[0]:]
		if end := strings.Index(part, "\n\n"); end > 0 {
			part = part[:end]
		}
		for _, k := range table.Keys {
			assert.Regexp(t, `(?m)^(# )?`+regexp.QuoteMeta(k.Name)+` = .* # .`, part, "%s.%s", table.Name, k.Name)
		}
	}
}

// TestEachCommentOfTheStarterIsARightLine takes the # away from one line after
// another. What then is wrong may only be that the line names a thing that the
// starter does not have, or says again what another line says.
func TestEachCommentOfTheStarterIsARightLine(t *testing.T) {
	allowed := map[string]string{
		"fed_by":      `no panel "MDP" in this file`,
		"feeder":      "feeder without fed_by",
		"transformer": "transformer without fed_by",
		"controller":  `no controller "north" in this file`,
		"apart":       `no room "veg" in this file`,
		"wired":       "both plug and wired",
		"current":     `current where voltage is "100-277 V"`,
		"currents":    `a current at "277 V", which voltage = "120 V" does not take in`,
		"sensible":    "",
	}
	lines := strings.Split(string(Starter()), "\n")
	line := regexp.MustCompile(`^# ([a-z_]+) = `)
	tried := 0
	for i, l := range lines {
		m := line.FindStringSubmatch(l)
		if m == nil || strings.HasPrefix(headerAbove(lines, i), "# ") {
			continue
		}
		tried++
		with := append([]string{}, lines...)
		with[i] = strings.TrimPrefix(l, "# ")
		_, problems := Read("x", []byte(strings.Join(with, "\n")), testWords())
		for _, p := range problems {
			assert.Equal(t, allowed[m[1]], p.Says, "line %d: %s", i+1, l)
		}
	}
	assert.Greater(t, tried, 80)
}

// headerAbove is the header of the table that line i belongs to.
func headerAbove(lines []string, i int) string {
	for ; i >= 0; i-- {
		if strings.HasPrefix(lines[i], "[") || strings.HasPrefix(lines[i], "# [") {
			return lines[i]
		}
	}
	return ""
}

func TestTablesThatTheStarterCommentsOutAreRight(t *testing.T) {
	text := string(Starter())
	for _, table := range []string{"circuits.LP1-7", "tariff"} {
		at := strings.Index(text, "# ["+table+"]")
		require.Positive(t, at, table)
		end := at + len(text[at:])
		if n := strings.Index(text[at:], "\n\n"); n > 0 {
			end = at + n
		}
		on := regexp.MustCompile(`(?m)^# `).ReplaceAllString(text[at:end], "")
		on = regexp.MustCompile(`(?m)^shares_neutral = .*\n`).ReplaceAllString(on, "") // names a circuit that the starter does not have
		sound(t, "x", []byte(text[:at]+on+text[end:]))
	}
}

func TestExamplesOfTheSchemaAreRight(t *testing.T) {
	var walk func(path string, keys []Key)
	walk = func(path string, keys []Key) {
		names := map[string]bool{}
		for _, k := range keys {
			assert.NotEmpty(t, k.Help, "%s.%s", path, k.Name)
			assert.NotEmpty(t, k.Form, "%s.%s", path, k.Name)
			assert.NotEmpty(t, k.Example, "%s.%s", path, k.Name)
			assert.False(t, names[k.Name], "%s.%s is there twice", path, k.Name)
			assert.Equal(t, strings.ToLower(k.Help[:1]), k.Help[:1], "%s.%s", path, k.Name)
			assert.False(t, strings.HasSuffix(k.Help, "."), "%s.%s", path, k.Name)
			names[k.Name] = true
			for _, other := range k.also {
				_, taken := keyNamed(keys, other)
				assert.False(t, taken, "%s.%s: %s is a key of its own", path, k.Name, other)
			}
			walk(path+"."+k.Name, k.Keys)
		}
	}
	for _, table := range Schema() {
		walk(table.Name, table.Keys)
	}
}

func TestReferenceListsEveryKeyOnce(t *testing.T) {
	text := Reference()
	rows := 0
	var count func(keys []Key)
	count = func(keys []Key) {
		for _, k := range keys {
			rows++
			count(k.Keys)
		}
	}
	for _, table := range Schema() {
		assert.Contains(t, text, fmt.Sprintf("## [%s]: ", dotted(table, "NAME")))
		count(table.Keys)
	}
	assert.Equal(t, rows, len(regexp.MustCompile("(?m)^\\| (\\*\\*)?`").FindAllString(text, -1)))
	assert.Contains(t, text, "| **`room`** |")
	assert.Contains(t, text, "| `climate.lights_on` | temperature with the lights on | a temperature |")
}

// The circuit of a home is one to begin with: with the # taken away it is read, in
// a dwelling.
func TestTheStartersCircuitOfAHomeIsRead(t *testing.T) {
	text := strings.Replace(string(Starter()), `use = "commercial"`, `use = "dwelling"`, 1)
	text = strings.Replace(text, "NM-B", "THHN", 1) // insulations are the code's to know
	home := text[strings.Index(text, "# [circuits.house-8]"):]
	home = home[:strings.Index(home, "\n\n")]
	inv := sound(t, "starter.toml", []byte(strings.Replace(text, home, strings.ReplaceAll("\n"+home, "\n# ", "\n"), 1)))
	require.Len(t, inv.Circuits, 1)
	assert.Equal(t, 15*units.Ampere, inv.Circuits[0].Breaker)
	assert.Equal(t, units.Is("NEMA 5-15R"), inv.Circuits[0].Receptacle)
}

// Where a key takes one of a few words, they stand beside it.
func TestStarterNamesTheWordsThatAKeyTakes(t *testing.T) {
	text := string(Starter())
	for _, line := range []string{`use = .*: "commercial", "dwelling"`, `kind = .*: "dehumidifier", .*"heater"`, `basis = .*: "label", `, `location = .*: "dry", `} {
		assert.Regexp(t, line, text)
	}
}
