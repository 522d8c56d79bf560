package judge_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/judge"
	"branchwork/codes"
	"branchwork/codes/book"
)

func defaultProfile(t *testing.T) *codes.Profile {
	p, ok := book.Profile(book.Default)
	require.True(t, ok)
	return p
}

const oneRoom = `# check
[site]
name = "invented"
use  = "commercial"
code = "nec-2023"
[panels.LP1]
system = "120/240 V 1ph"
main   = "100 A"
spaces = 24
[rooms.flower]
panel  = "LP1"
lights = "06:00-18:00"
run    = "20 ft"
[fixtures.bar]
room  = "flower"
count = 10
power = "640 W"
power_factor = 0.98
voltage = "240 V"
plug = true
`

const twoCircuits = `
[circuits.row-1]
panel = "LP1"
spaces = [1, 3]
breaker = "20 A"
conductor = "12 AWG copper THHN"
ground = "12 AWG copper"
receptacle = "6-20"
gfci = true
feeds = { "bar" = 5 }
[circuits.row-2]
panel = "LP1"
spaces = [5, 7]
breaker = "20 A"
conductor = "12 AWG copper THHN"
ground = "12 AWG copper"
receptacle = "6-20"
gfci = true
feeds = { "bar" = 5 }
`

// 5 × 640 W / (240 V × 0.98) = 13.61 A, 17.01 A with the allowance, of 20 A:
// 85 %. The conductor has 20 A at its terminations: 85 % too, and stands behind
// the breaker in the order of the rules.
func TestTheBindingLimitComesFirstAndTheNextBehindIt(t *testing.T) {
	s := planned(t, "x.toml", oneRoom+twoCircuits, defaultProfile(t))
	judge.Plan(s.inv, s.set, defaultProfile(t), &s.plan)
	for _, c := range s.plan.Circuits {
		require.GreaterOrEqual(t, len(c.Limits), 4, c.Name)
		assert.Equal(t, "continuous-load", c.Limits[0].Rule)
		assert.Equal(t, "conductor-ampacity", c.Limits[1].Rule)
		assert.InDelta(t, 17.0068/20, c.Limits[0].Share, 1e-4)
		assert.Equal(t, "A", c.Limits[0].Actual.Unit)
		for i := 1; i < len(c.Limits); i++ {
			assert.LessOrEqual(t, c.Limits[i].Share, c.Limits[i-1].Share)
		}
	}
}

// A drop far beyond what is advised does not stand before an overloaded breaker:
// 17.01 A of 15 A is 113 %, the drop of 400 ft several times its 3 %.
func TestAdviceHidesNoLimitOfTheCode(t *testing.T) {
	text := strings.NewReplacer(`breaker = "20 A"`, `breaker = "15 A"`, "gfci = true\nfeeds", "gfci = true\nlength = \"400 ft\"\nfeeds").Replace(twoCircuits)
	s := planned(t, "x.toml", oneRoom+text, defaultProfile(t))
	judge.Plan(s.inv, s.set, defaultProfile(t), &s.plan)
	limits := s.plan.Circuits[0].Limits
	at := slices.IndexFunc(limits, func(l circuits.Limit) bool { return l.Rule == "voltage-drop-branch" })
	assert.Equal(t, "continuous-load", limits[0].Rule)
	assert.Greater(t, limits[at].Share, limits[0].Share)
	for i, l := range limits {
		assert.Equal(t, i < at, l.Share > 1 && i != at, l.Rule)
	}
}

// A maker's limit below the current's binds instead.
func TestAMakersLimitCanBind(t *testing.T) {
	text := strings.Replace(oneRoom, "plug = true\n", "plug = true\nmax_per_breaker = 5\n", 1)
	s := planned(t, "x.toml", text+twoCircuits, defaultProfile(t))
	judge.Plan(s.inv, s.set, defaultProfile(t), &s.plan)
	assert.Equal(t, "inrush-count", s.plan.Circuits[0].Limits[0].Rule)
	assert.InDelta(t, 1, s.plan.Circuits[0].Limits[0].Share, 1e-9)
}

// What the fixture's table lacks is reported once, under that table, however many
// circuits carry the fixture.
func TestAFactMissingInOneTableIsFoundOnce(t *testing.T) {
	_, findings := judged(t, "x.toml", oneRoom+twoCircuits, defaultProfile(t))
	found := of("inrush-count", findings)
	require.Len(t, found, 1, said(findings))
	assert.Equal(t, "fixtures.bar", found[0].Subject)
	assert.Contains(t, found[0].Message, "circuit row-1, circuit row-2")
	assert.Equal(t, codes.CannotTell, found[0].State)
	assert.Len(t, of("leakage-sum", findings), 1)
}

// A conductor that nobody knows leaves several rules open; they are one finding,
// which names them all, beside the one that says to stop.
func TestAnUnknownConductorIsOneFindingWithTheWordsForAnElectrician(t *testing.T) {
	text := strings.Replace(oneRoom+twoCircuits, "conductor = \"12 AWG copper THHN\"\n", "", 1)
	_, findings := judged(t, "x.toml", text, defaultProfile(t))
	var grave []codes.Finding
	for _, f := range findings {
		if f.Severity == codes.Violation && f.Subject == "circuits.row-1" {
			grave = append(grave, f)
		}
	}
	require.Len(t, grave, 2, said(grave))
	stop := of("branch-wiring", grave)
	require.Len(t, stop, 1)
	assert.Contains(t, stop[0].Remedy, "ask a licensed electrician")
	for _, rule := range []string{"device-protects-conductor", "small-conductor", "conductor-ampacity"} {
		assert.Len(t, of(rule, grave), 1, rule)
	}
	assert.False(t, codes.Passed(findings))
}

// The same plan judged twice says the same, in the same order.
func TestFindingsDoNotDependOnChance(t *testing.T) {
	text := strings.Replace(oneRoom+twoCircuits, "conductor = \"12 AWG copper THHN\"\n", "", 1)
	_, first := judged(t, "x.toml", text, defaultProfile(t))
	for range 20 {
		_, again := judged(t, "x.toml", text, defaultProfile(t))
		require.Equal(t, said(first), said(again))
	}
}

// Of several loads on a circuit the fullest is its limit, wherever it stands in the
// file: 960 W beside 120 W on each side take 8 A of the 16 A, 80 % of 20 A, that
// one plug may take (NFPA 70 210.23).
func TestOfSeveralLoadsTheFullestIsTheLimit(t *testing.T) {
	text := strings.Replace(oneRoom, "count = 10", "count = 1", 1)
	for _, x := range []string{"a = 120", "b = 960", "c = 120"} {
		name, watts, _ := strings.Cut(x, " = ")
		text += "[equipment." + name + "]\nkind = \"other\"\nroom = \"flower\"\npower = \"" + watts + " W\"\npower_factor = 1.0\nvoltage = \"120 V\"\nplug = true\n"
	}
	text += "[circuits.LP1-2]\npanel = \"LP1\"\nspaces = [2]\nbreaker = \"20 A\"\nconductor = \"12 AWG copper THHN\"\nground = \"12 AWG copper\"\n" +
		"receptacle = \"5-20\"\ngfci = true\nfeeds = { a = 1, b = 1, c = 1 }\n"
	s := planned(t, "x.toml", text, defaultProfile(t))
	judge.Plan(s.inv, s.set, defaultProfile(t), &s.plan)
	found := false
	for _, l := range s.plan.Circuits[0].Limits {
		if l.Rule == "one-plug-load" {
			found = true
			assert.InDelta(t, 8, l.Actual.Value, 1e-9)
			assert.InDelta(t, 16, l.Limit.Value, 1e-9)
		}
	}
	assert.True(t, found)
}

// What a meter showed counts as continuous load, whatever the file lists: 17 A
// behind 20 A ask for 21.25 A.
func TestWhatAMeterShowedIsJudged(t *testing.T) {
	text := oneRoom + strings.Replace(twoCircuits, "feeds = { \"bar\" = 5 }", "feeds = { \"bar\" = 1 }\nmeasured = \"17 A\"\nstate = \"lights on\"", 1)
	_, findings := judged(t, "x.toml", text, defaultProfile(t))
	found := of("continuous-load", findings)
	require.Len(t, found, 1, said(findings))
	assert.Equal(t, "circuits.row-1", found[0].Subject)
	assert.Equal(t, codes.Broken, found[0].State)
	assert.InDelta(t, 21.25, found[0].Actual.Value, 1e-6)
}

// Where fans stand is not stated, and whether their receptacles are protected hangs
// on it: one finding of the panel names them and the key, however many circuits.
func TestPlacesThatAreNotStatedAreOneFindingOfAPanel(t *testing.T) {
	fans := func(name, more string) string {
		return "[fans." + name + "]\nroom = \"flower\"\ncount = 40\npower = \"100 W\"\nvoltage = \"120 V\"\n" + more
	}
	text := oneRoom + fans("low", "") + fans("high", "") + fans("dry", "location = \"dry\"\n")
	_, findings := judged(t, "places.toml", strings.Replace(text, "# check", "# plan", 1), defaultProfile(t))
	found := of("ground-fault-receptacle", findings)
	require.Len(t, found, 1, said(findings))
	assert.Equal(t, codes.CannotTell, found[0].State)
	assert.Equal(t, "panels.LP1", found[0].Subject)
	assert.Contains(t, found[0].Message, "high, low: the location is not stated")
	assert.Contains(t, found[0].Remedy, "add `location` to each")
}

// A new breaker on a panel whose other load is given in amperes: whether a space is
// left is not known until somebody counts the other breakers; then it is counted.
func TestSpacesAreNotFreeWhereBreakersAreNotListed(t *testing.T) {
	spaces := func(keys string) []codes.Finding {
		text := strings.NewReplacer("# check", "# plan", "spaces = 24\n", "spaces = 24\n"+keys).Replace(oneRoom)
		_, findings := judged(t, "spaces.toml", text, defaultProfile(t))
		return of("panel-spaces", findings)
	}
	assert.Empty(t, spaces(""))
	open := spaces("other_load = \"5 A\"\n")
	require.Len(t, open, 1)
	assert.Equal(t, codes.CannotTell, open[0].State)
	assert.Contains(t, open[0].Remedy, "add `other_spaces`")
	assert.Empty(t, spaces("other_load = \"5 A\"\nother_spaces = 16\n"), "they fit beside 16")
	full := spaces("other_load = \"5 A\"\nother_spaces = 23\n")
	require.Len(t, full, 1)
	assert.Equal(t, codes.Broken, full[0].State)
	assert.Contains(t, full[0].Message, "spaces and it has 24")

	built := strings.Replace(oneRoom+twoCircuits, "spaces = 24\n", "spaces = 24\nother_load = \"5 A\"\n", 1)
	_, findings := judged(t, "built.toml", built, defaultProfile(t))
	assert.Empty(t, of("panel-spaces", findings), "what stands in the panel has its space")
}
