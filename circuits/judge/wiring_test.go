package judge_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/judge"
	"branchwork/codes"
)

// Rooms that are lit by turns are held apart by an interlock whose two sides they
// stand on, and by one that names each for itself; not where both stand on one
// side, or where only some of the luminaires are held.
func TestAnInterlockHoldsRoomsThatStandOnItsTwoSides(t *testing.T) {
	text, ok := read(t, defaultProfile(t), "noncoincident-interlock", "broken.toml")
	require.True(t, ok)
	for _, x := range []struct {
		flower, veg string
		held        bool
	}{
		{"flip", "flip", true}, {"flip:A", "flip:B", true}, {"flip:A", "flip:A", false}, {"flip:A", "other:B", false},
	} {
		site := strings.NewReplacer(`interlock = "flip"`, `interlock = "`+x.flower+`"`, `interlock = "other"`, `interlock = "`+x.veg+`"`).Replace(text)
		_, findings := judged(t, "x.toml", site, defaultProfile(t))
		assert.Equal(t, x.held, len(of("noncoincident-interlock", findings)) == 0, "%s and %s", x.flower, x.veg)
	}
	own := strings.Replace(text, "[fixtures.bar-veg]\nroom  = \"veg\"\n", "[fixtures.bar-veg]\nroom  = \"veg\"\ninterlock = \"lamps\"\n", 1)
	own = strings.Replace(own, `interlock = "other"`, `interlock = "flip"`, 1)
	require.NotEqual(t, text, own)
	_, findings := judged(t, "x.toml", own, defaultProfile(t))
	assert.Len(t, of("noncoincident-interlock", findings), 1, "the luminaires of one room have an interlock of their own")
}

// Of the invented sites, none whose layout is proved gets the advice to move
// circuits, and the building is not advised to interlock the two groups of rooms that
// stand on one interlock.
func TestSitesGetNoAdviceThatCannotBeTaken(t *testing.T) {
	files, err := filepath.Glob("../../testdata/sites/*.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 6)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		p := defaultProfile(t)
		s := planned(t, f, "# plan\n"+string(text), p)
		findings := judge.Plan(s.inv, s.set, p, &s.plan)
		existing := map[string]bool{}
		for _, c := range s.plan.Circuits {
			existing[c.Panel] = existing[c.Panel] || c.Existing
		}
		for _, x := range s.plan.Panels {
			if !x.Balance.Proved || existing[x.Name] {
				continue
			}
			for _, found := range of("leg-balance", findings) {
				assert.NotEqual(t, "panels."+x.Name, found.Subject, f)
			}
		}
		if filepath.Base(f) == "building.toml" { // the drying room is lit by day and held by nothing
			assert.NotRegexp(t, `flower-\d+ and flower-\d+`, said(of("noncoincident-interlock", findings)))
		}
	}
}

// Two circuits of three 2.72 A bars, 8.16 A each, behind one controller. A box
// with outlets passes both through one contactor, 16.33 A, two boxes half of it
// each; a relay without outlets has a pole for each conductor: 8.16 A. A bank that
// is lit at another time does not add up.
func TestWhatFlowsThroughContacts(t *testing.T) {
	const banks = `
[circuits.LP1-1]
panel = "LP1"
spaces = [1, 3]
breaker = "20 A"
feeds = { "bar" = 3 }
[circuits.LP1-5]
panel = "LP1"
spaces = [5, 7]
breaker = "20 A"
feeds = { "bar" = 3 }
`
	site := strings.Replace(oneRoom, "count = 10", "count = 10\ncontroller = \"north\"", 1)
	box := "\n[controllers.north]\nroom = \"flower\"\npower = \"10 W\"\nvoltage = \"240 V\"\ncontactor = \"8 A\"\n"
	for _, x := range []struct{ why, text, says string }{
		{"a relay", site + box + banks, "circuit LP1-1 draws 8.16 A through contacts rated 8 A"},
		{"a box", site + box + "outlets = 8\n" + banks, "lights on 06:00-18:00, what it switches draws 16.33 A through contacts rated 8 A"},
		{"a box, one bank by night", site + "\n[fixtures.night]\nroom = \"flower\"\ncount = 3\npower = \"640 W\"\npower_factor = 0.98\nvoltage = \"240 V\"\nplug = true\n" +
			"lights = \"19:00-05:00\"\ncontroller = \"north\"\n" + box + "outlets = 8\n" + strings.Replace(banks, `spaces = [5, 7]
breaker = "20 A"
feeds = { "bar" = 3 }`, `spaces = [5, 7]
breaker = "20 A"
feeds = { "night" = 3 }`, 1), "what it switches draws 8.16 A"},
	} {
		_, findings := judged(t, "x.toml", x.text, defaultProfile(t))
		found := of("controller-contactor", findings)
		require.Len(t, found, 1, x.why)
		assert.Equal(t, codes.Broken, found[0].State)
		assert.Contains(t, found[0].Message, x.says, x.why)
	}
}

// A chain is judged at its circuit's voltage: four bars of 330 W draw 11.22 A at
// 120 V and 5.61 A at 240 V, through an inlet that may carry 8 A.
func TestAChainIsJudgedAtItsCircuitsVoltage(t *testing.T) {
	text, ok := read(t, defaultProfile(t), "link-chain", "broken.toml")
	require.True(t, ok)
	_, findings := judged(t, "x.toml", text, defaultProfile(t))
	require.Len(t, of("link-chain", findings), 1)
	assert.Contains(t, of("link-chain", findings)[0].Remedy, "chains of at most 2") // 8 / 2.81 = 2.85
	higher := strings.NewReplacer(`voltage = "120 V"`, `voltage = "240 V"`, "spaces  = [1]", "spaces  = [1, 3]", `"5-20"`, `"6-20"`).Replace(text)
	_, findings = judged(t, "x.toml", higher, defaultProfile(t))
	assert.Empty(t, said(of("link-chain", findings)))
}

// Spaces 1 and 7 stand on different legs, and no handle reaches both breakers:
// whether one opens them need not be told. On two panels it is worse.
func TestBreakersApartCannotShareANeutral(t *testing.T) {
	text, ok := read(t, defaultProfile(t), "multiwire-circuit", "sound.toml")
	require.True(t, ok)
	apart := strings.NewReplacer("spaces  = [3]", "spaces  = [7]", "handle_tie = true\n", "").Replace(text)
	_, findings := judged(t, "x.toml", apart, defaultProfile(t))
	found := of("multiwire-circuit", findings)
	require.Len(t, found, 1)
	assert.Equal(t, codes.Broken, found[0].State)
	assert.Contains(t, found[0].Message, "no handle reaches all their breakers: LP1-1 in space 1 of LP1 on leg A, LP1-2 in space 7 of LP1 on leg B")

	at := strings.LastIndex(text, `panel   = "LP1"`)
	two := text[:at] + `panel   = "LP2"` + text[at+len(`panel   = "LP1"`):] + "\n[panels.LP2]\nsystem = \"120/240 V 1ph\"\nspaces = 12\n"
	_, findings = judged(t, "x.toml", two, defaultProfile(t))
	found = of("multiwire-circuit", findings)
	require.Len(t, found, 1)
	assert.Contains(t, found[0].Message, "leave different panels")
}

// Circuits that share a neutral are one finding, at the table that says so, in
// whatever order the file names them.
func TestASharedNeutralIsJudgedOnce(t *testing.T) {
	text, ok := read(t, defaultProfile(t), "multiwire-circuit", "sound.toml")
	require.True(t, ok)
	text = strings.Replace(text, "handle_tie = true", "handle_tie = false", 1)
	both := text + "shares_neutral = \"LP1-1\"\nhandle_tie = true\n" // one of them says no
	for _, site := range []string{text, both} {
		_, findings := judged(t, "x.toml", site, defaultProfile(t))
		found := of("multiwire-circuit", findings)
		require.Len(t, found, 1)
		assert.Equal(t, codes.Broken, found[0].State)
		assert.Contains(t, found[0].Message, "LP1-1 and LP1-2 share a neutral, and each is opened by itself")
		assert.Contains(t, found[0].Remedy, "a breaker of 2 poles")
	}
}
