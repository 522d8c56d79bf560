package judge_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// The seeded faults stand in a folder for each family of codes and, in it, one
// for each rule: the smallest inventory that breaks it, the same one mended, and
// where a fact can be left out the same one without it. A rule of good practice
// has a folder in every family, because it judges the circuits of each.
//
// The first line of a file says how it is read: "# plan" or "# check". The line
// that a finding must point to carries its own expectation, and a line by itself
// names what else the inventory cannot help being found at fault for:
//
//	# expect <rule> <severity> [cannot-tell] [needs=<actual>] [has=<limit>]
//	# also <rule>: <reason>
//	# except <profile>...: <reason>
//	# always known: <reason why no fact that the rule needs can be missing>
const faults = "../../testdata/faults"

// expectation is what a fixture says of itself.
type expectation struct {
	rule, severity string
	state          codes.State
	needs, has     string // as written; empty: not asked
	line           int
}

var (
	mark   = regexp.MustCompile(`# expect (\S+) (violation|warning|advice)( cannot-tell)?( needs=(\S+))?( has=(\S+))?\s*$`)
	also   = regexp.MustCompile(`^# also ([a-z0-9A-]+): \S.{10,}$`)
	always = regexp.MustCompile(`(?m)^# always known: \S.{10,}$`)
	except = regexp.MustCompile(`^# except ((?:[a-z]+-\d{4} ?)+): \S.{10,}$`)
)

// expected returns the one expectation of a fixture.
func expected(t *testing.T, text string) expectation {
	var out []expectation
	for i, line := range strings.Split(text, "\n") {
		m := mark.FindStringSubmatch(line)
		require.Equal(t, strings.Contains(line, "# expect"), m != nil, "line %d: a mark that cannot be read: %s", i+1, line)
		if m == nil {
			continue
		}
		e := expectation{rule: m[1], severity: m[2], state: codes.Broken, needs: m[5], has: m[7], line: i + 1}
		if m[3] != "" {
			e.state = codes.CannotTell
		}
		out = append(out, e)
	}
	require.Len(t, out, 1, "one line says what is expected")
	return out[0]
}

// named returns what the lines of one kind of mark name, in order.
func named(t *testing.T, text, word string, mark *regexp.Regexp) []string {
	var out []string
	for i, line := range strings.Split(text, "\n") {
		m := mark.FindStringSubmatch(line)
		require.Equal(t, strings.Contains(line, "# "+word), m != nil, "line %d: a mark that cannot be read: %s", i+1, line)
		if m != nil {
			out = append(out, strings.Fields(m[1])...)
		}
	}
	slices.Sort(out)
	return out
}

// family is the folder of the fixtures that are written for a profile: the name
// of its code without the edition.
func family(p *codes.Profile) string {
	name, _, _ := strings.Cut(p.Name, "-")
	return name
}

var itsCode = regexp.MustCompile(`(?m)^(code\s*= )"[a-z]+-\d{4}"$`)

// read returns a fixture of a rule as it is written under a profile; ok is false
// where there is none.
func read(t *testing.T, p *codes.Profile, rule, file string) (string, bool) {
	b, err := os.ReadFile(filepath.Join(faults, family(p), rule, file))
	if os.IsNotExist(err) {
		return "", false
	}
	require.NoError(t, err)
	require.Len(t, itsCode.FindAllString(string(b), -1), 1, "%s/%s names its code in one line", rule, file)
	return itsCode.ReplaceAllString(string(b), `$1"`+p.Name+`"`), true
}

// site is a fixture as it stands before it is judged.
type site struct {
	inv  *inventory.Inventory
	set  loads.Set
	plan circuits.Plan
}

// judged reads a fixture under a profile and returns what is found.
func judged(t *testing.T, name, text string, p *codes.Profile) (*inventory.Inventory, []codes.Finding) {
	s := planned(t, name, text, p)
	return s.inv, judge.Plan(s.inv, s.set, p, &s.plan)
}

// planned reads a fixture and plans it, or takes it as built.
func planned(t *testing.T, name, text string, p *codes.Profile) site {
	words := inventory.Vocabulary{Sizes: p.Wires.Sizes, Raceways: p.Wires.Raceways}
	for m := range p.Wires.Ampacity {
		words.Materials = append(words.Materials, m)
	}
	sort.Strings(words.Materials)
	for _, i := range p.Wires.Insulations {
		words.Insulations = append(words.Insulations, i.Name)
	}
	for _, r := range p.Receptacles {
		words.Receptacles = append(words.Receptacles, r.Name)
	}
	inv, problems := inventory.Read(name, []byte(text), words)
	require.Empty(t, problems, "the inventory is refused")
	set := loads.Build(inv, loads.CodeValues{Motors: p.FullLoadCurrent, Outlet: p.Branch.OutletVA, OutletCite: p.Branch.OutletCite})
	decide := assign.Plan
	switch first, _, _ := strings.Cut(text, "\n"); first {
	case "# plan":
	case "# check":
		decide = assign.AsBuilt
	default:
		t.Fatalf("the first line is %q, not # plan or # check", first)
	}
	plan, err := decide(inv, set, p)
	require.NoError(t, err)
	require.Empty(t, verify.Plan(inv, set, p, plan), "the plan does not hold when it is worked out by another road")
	return site{inv, set, plan}
}

// of returns the findings of a rule.
func of(rule string, list []codes.Finding) []codes.Finding {
	var out []codes.Finding
	for _, f := range list {
		if f.Names(rule) {
			out = append(out, f)
		}
	}
	return out
}

// beside returns the findings of other rules.
func beside(rule string, list []codes.Finding) []codes.Finding {
	return slices.DeleteFunc(slices.Clone(list), func(f codes.Finding) bool { return f.Names(rule) })
}

// counted returns the violations and warnings, which a sound inventory is free of.
// Advice is not counted.
func counted(list []codes.Finding) []codes.Finding {
	return slices.DeleteFunc(slices.Clone(list), func(f codes.Finding) bool { return f.Severity == codes.Advice })
}

// without returns the findings of a list that do not stand in another one. Their
// figures may differ.
func without(list, other []codes.Finding) []codes.Finding {
	same := func(a, b codes.Finding) bool {
		return a.Rule == b.Rule && a.Severity == b.Severity && a.State == b.State && a.Subject == b.Subject && slices.Equal(a.Also, b.Also)
	}
	return slices.DeleteFunc(slices.Clone(list), func(f codes.Finding) bool {
		return slices.ContainsFunc(other, func(o codes.Finding) bool { return same(f, o) })
	})
}

// rulesOf names the rules that findings are of, in order.
func rulesOf(list []codes.Finding) []string {
	var out []string
	for _, f := range list {
		out = append(append(out, f.Rule), f.Also...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// figure compares a value with a figure as written: within half a unit of its
// last digit.
func figure(t *testing.T, written string, value float64, says string) {
	if written == "" {
		return
	}
	want, err := strconv.ParseFloat(written, 64)
	require.NoError(t, err, written)
	half := 0.5
	if _, decimals, ok := strings.Cut(written, "."); ok {
		for range decimals {
			half /= 10
		}
	}
	assert.InDelta(t, want, value, half*(1+1e-9), says)
}

// speaks checks the form of what a finding says.
func speaks(t *testing.T, f codes.Finding) {
	for _, text := range []string{f.Message, f.Remedy} {
		require.NotEmpty(t, text)
		assert.NotRegexp(t, `\.$`, text, "a full stop")
		assert.NotRegexp(t, `(?i)\b(complies|compliant|is safe|ok)\b`, text)
		assert.NotRegexp(t, `%!|NaN|Inf|  |\(\)`, text)
	}
	assert.NotRegexp(t, `(?i)larger breaker|breaker of a higher rating`, f.Remedy)
	assert.NotEmpty(t, f.Clause())
}

// differing counts the lines in which two inventories differ, comments apart.
func differing(a, b string) int {
	x, y := bare(a), bare(b)
	n := 0
	if len(x) == len(y) {
		for i := range x {
			if x[i] != y[i] {
				n++
			}
		}
		return n
	}
	if len(x) > len(y) {
		x, y = y, x
	}
	i := 0
	for _, line := range y {
		if i < len(x) && x[i] == line {
			i++
		} else {
			n++
		}
	}
	return n + len(x) - i
}

func bare(text string) []string {
	var out []string
	for _, line := range strings.Split(text, "\n") {
		code, _, _ := strings.Cut(line, "#")
		if code = strings.TrimSpace(code); code != "" {
			out = append(out, code)
		}
	}
	return out
}

func said(list []codes.Finding) string {
	var out []string
	for _, f := range list {
		out = append(out, f.Severity.String()+" "+f.State.String()+" ["+f.Rule+"] "+f.Message+" -> "+f.Remedy)
	}
	return strings.Join(out, "\n")
}
