package book_test

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/codes/outside"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
)

const (
	editionsSite   = "../../testdata/golden/editions.toml"
	editionsGolden = "../../testdata/golden/editions.txt"
)

// under is what a plan says under one edition, by what it is said of. Values name
// no edition, so that two editions that say the same compare equal.
func under(t *testing.T, p *codes.Profile) map[string]string {
	text, err := os.ReadFile(editionsSite)
	require.NoError(t, err)
	inv, problems := inventory.Read(editionsSite, []byte(strings.ReplaceAll(string(text), book.Default, p.Name)), inventory.Vocabulary{})
	require.Empty(t, problems)
	set := loads.Build(inv, loads.CodeValues{Motors: p.FullLoadCurrent, Outlet: p.Branch.OutletVA, OutletCite: p.Branch.OutletCite})
	plan, err := assign.Plan(inv, set, p)
	require.NoError(t, err)
	require.Empty(t, verify.Plan(inv, set, p, plan))
	out := map[string]string{}
	for _, f := range judge.Plan(inv, set, p, &plan) {
		key := fmt.Sprintf("finding %s on %s", f.Rule, f.Subject)
		out[key] = strings.TrimPrefix(out[key]+"; "+f.Severity.String()+", "+f.Message, "; ")
	}
	for _, c := range plan.Circuits {
		cited(out, c.Steps)
	}
	for _, l := range set.Loads {
		out["circuits of "+l.Name] = circuitsOf(l.Name, plan.Circuits)
	}
	for _, x := range plan.Panels {
		out["demand of "+x.Name] = fmt.Sprintf("%s, needs %s", x.DemandVA, x.Required)
		cited(out, x.Steps)
		if x.Feeder != nil {
			cited(out, x.Feeder.Steps)
		}
	}
	for _, a := range plan.Assumptions {
		out["assumption "+a.Subject] = strings.TrimSpace(a.Value + " [" + place(a.Cite) + "]")
	}
	for _, r := range p.Rules {
		if cites, ok := r.In(p.Edition); ok && r.Clauses[p.Edition] != nil {
			var at []string
			for _, c := range cites {
				at = append(at, place(c))
			}
			out["clause of "+r.ID] = strings.Join(at, "; ")
		}
	}
	return out
}

// circuitsOf says on how many circuits an item hangs and what they are like.
func circuitsOf(item string, list []circuits.Circuit) string {
	n := map[string]int{}
	var kinds []string
	for _, c := range list {
		for _, l := range c.Loads {
			if l.Item != item {
				continue
			}
			kind := fmt.Sprintf("with %d: %s, %s %s, %s; %s", l.Count, c.Breaker.Or(0), c.Conductor.Size, c.Conductor.Material, c.Raceway.Name(), guarded(c))
			if n[kind]++; n[kind] == 1 {
				kinds = append(kinds, kind)
			}
		}
	}
	sort.Strings(kinds)
	for i, kind := range kinds {
		kinds[i] = fmt.Sprintf("%d %s", n[kind], kind)
	}
	return strings.Join(kinds, "; ")
}

func guarded(c circuits.Circuit) string {
	g := c.Protection
	if !g.Needed {
		return "none called for"
	}
	return fmt.Sprintf("%s, trips from %.0f mA, %s", g.Class, 1000*float64(g.Trip), place(g.Cite))
}

// place is a cite without its edition.
func place(c steps.Cite) string {
	c.Edition = ""
	return c.String()
}

// cited notes the clause that each kind of step rests on.
func cited(out map[string]string, list []steps.Step) {
	for _, s := range list {
		name := s.Name
		if i := strings.LastIndex(name, ": "); i >= 0 { // of one load, of one leg
			name = name[i+2:]
		}
		if s.Cite.Ref != "nfpa70" || strings.HasPrefix(name, "leg ") {
			continue
		}
		key, at := "clause of the step "+name, place(s.Cite)
		if !slices.Contains(strings.Split(out[key], "; "), at) {
			out[key] = strings.TrimPrefix(out[key]+"; "+at, "; ")
			parts := strings.Split(out[key], "; ")
			sort.Strings(parts)
			out[key] = strings.Join(parts, "; ")
		}
	}
}

// change is one thing that two editions say differently.
type change struct{ of, before, after string }

func (c change) String() string {
	say := func(s string) string {
		if s == "" {
			return "(nothing)"
		}
		return s
	}
	return fmt.Sprintf("%s\n      was %s\n      is  %s", c.of, say(c.before), say(c.after))
}

const fromMemory = " (from memory)"

// remembered reports whether two values differ in how they were checked alone.
func (c change) remembered() bool {
	return strings.ReplaceAll(c.before, fromMemory, "") == strings.ReplaceAll(c.after, fromMemory, "")
}

// because names the row of the table of changes that explains a difference, empty
// where none does.
func (c change) because() string {
	text := c.String()
	for _, x := range []struct{ row, matches string }{
		{"horticultural lighting", `410\.184|ground-fault-lighting|leakage-sum|GFCI`},
		{"10 A circuits", `standard-rating|branch-rating|permitted-loads on|10, 15`},
		{"letters of 210.23", `210\.23`},
		{"numbers of Article 310", `310\.1`},
		{"number of fixed heating", `424\.`},
		{"number of Table 430.52", `430\.52`},
		{"load calculation in Article 120", `120\.`},
		{"receptacles that ask for a GFCI", `210\.8`},
	} {
		if regexp.MustCompile(x.matches).MatchString(text) {
			return x.row
		}
	}
	return ""
}

// The same site under four editions: what is printed is what differs, and nothing
// else does. Each difference stands under the published change that explains it:
// a row of the table edition-changes with its sources. A difference that no row
// explains fails, and so does a row of which the site shows nothing.
//
// BRANCHWORK_UPDATE=1 writes the golden anew; never in continuous integration.
func TestEditionsDifferByWhatWasPublishedAndNothingElse(t *testing.T) {
	var family []*codes.Profile
	for _, p := range book.All() {
		if p.Ref == "nfpa70" {
			family = append(family, p)
		}
	}
	require.Len(t, family, 4)
	shown := map[string]bool{}
	var b strings.Builder
	b.WriteString("# The invented site of editions.toml under four editions: what differs from one to the next.\n" +
		"# A difference stands under the published change that explains it, with its sources.\n")
	before := under(t, family[0])
	for i, p := range family[1:] {
		after := under(t, p)
		fmt.Fprintf(&b, "\n%s -> %s\n", family[i].Title, p.Title)
		explained(t, &b, p, differences(before, after), shown)
		before = after
	}
	for _, r := range changes(t, family[0]).Rows {
		if r.Key != "receptacles that ask for a GFCI" { // of dwellings in 2017, and of places the file has no words for
			assert.True(t, shown[r.Key], "the site shows nothing of the change %q", r.Key)
		}
	}
	if outside.Updating() {
		require.NoError(t, os.WriteFile(editionsGolden, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(editionsGolden)
	require.NoError(t, err, "BRANCHWORK_UPDATE=1 go test ./codes/book")
	assert.Equal(t, string(want), b.String(), "BRANCHWORK_UPDATE=1 go test ./codes/book, then read what changed")
}

// By hand: a bar leaks 1.5 mA, so that a device that may trip at 4 mA takes two, and
// twelve bars take six circuits; one that trips at 20 mA takes thirteen, and the
// amperes decide: 640 W / (277 V · 0.96) = 2.41 A, 3.01 A with the allowance, six
// on 20 A. In 2017 nothing asks for a device.
func TestTheDeviceDecidesHowManyBarsShareACircuit(t *testing.T) {
	for edition, want := range map[string]string{"nec-2017": "2 with 6", "nec-2020": "6 with 2", "nec-2023": "2 with 6", "nec-2026": "2 with 6"} {
		p, ok := book.Profile(edition)
		require.True(t, ok)
		assert.Contains(t, under(t, p)["circuits of bar"], want, edition)
	}
}

func differences(before, after map[string]string) []change {
	var out []change
	for key, v := range before {
		if after[key] != v {
			out = append(out, change{key, v, after[key]})
		}
	}
	for key, v := range after {
		if _, there := before[key]; !there {
			out = append(out, change{key, "", v})
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].of < out[j].of })
	return out
}

// explained prints differences under the changes that explain them, in the order
// of the table. Clauses that differ in nothing but how they were checked are
// named in one line.
func explained(t *testing.T, b *strings.Builder, p *codes.Profile, list []change, shown map[string]bool) {
	var memory []string
	under := map[string][]change{}
	moved := "" // the change that puts loads on other circuits, and so on other legs
	for _, c := range list {
		if c.remembered() {
			memory = append(memory, c.of)
			continue
		}
		row := c.because()
		if strings.HasPrefix(c.of, "circuits of ") {
			moved = row
		}
		if strings.HasPrefix(c.of, "demand of ") {
			row = moved
		}
		assert.NotEmpty(t, row, "%s: no published change explains this difference: %s", p.Title, c)
		under[row] = append(under[row], c)
	}
	for _, r := range changes(t, p).Rows {
		memorable := r.Key == "what is held from memory" && len(memory) > 0
		if len(under[r.Key]) == 0 && !memorable {
			continue
		}
		shown[r.Key] = true
		fmt.Fprintf(b, "\n  # %s: %s\n", r.Key, r.Text[changes(t, p).Column(p.Edition)])
		for _, ref := range sourcesOf(t, r, p.Edition) {
			fmt.Fprintf(b, "  # %s, %s\n", ref.Title, ref.URL)
		}
		for _, c := range under[r.Key] {
			fmt.Fprintf(b, "    %s\n", c)
		}
		if memorable {
			fmt.Fprintf(b, "    marked otherwise, and else the same: %s\n", strings.Join(memory, "; "))
		}
	}
}

// sourcesOf returns the sources of a row: those that speak of an edition in their
// title, or all where none does.
func sourcesOf(t *testing.T, r codes.Row, edition string) []steps.Reference {
	var of, all []steps.Reference
	for _, key := range r.From {
		ref, ok := steps.Lookup(key)
		require.True(t, ok, key)
		all = append(all, ref)
		if strings.Contains(ref.Title, edition) {
			of = append(of, ref)
		}
	}
	if len(of) == 0 {
		return all
	}
	return of
}

func changes(t *testing.T, p *codes.Profile) codes.Table {
	for _, x := range p.Tables {
		if x.ID == "edition-changes" {
			return x
		}
	}
	require.Fail(t, "no table of changes")
	return codes.Table{}
}
