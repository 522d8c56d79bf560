package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/html"
)

// asking is the strip of a live page on a text.
func asking(t *testing.T, text string) *wished {
	t.Helper()
	s := silent()
	inv, p, err := parseSite(s, "site.toml", []byte(text), "", defaultWidth)
	require.NoError(t, err)
	before, err := silent().work(inv, p, false)
	require.NoError(t, err)
	w := &wished{x: siteText{src: []byte(text), inv: inv, p: p}, o: &viewOptions{}, s: s, about: html.Live{File: "site.toml"}, before: before}
	w.choices()
	return w
}

// strip is a question as the form sends it: words of do, by, item, on, or of dim, room,
// percent.
func strip(changes ...string) url.Values {
	q := url.Values{"part": {"answer"}}
	for _, c := range changes {
		f := strings.Fields(c + " ")
		if f[0] == "dim" {
			q.Add("room", f[1])
			q.Add("level", f[2])
			continue
		}
		q.Add("do", f[0])
		q.Add("by", f[1])
		q.Add("item", f[2])
		q.Add("on", strings.Join(f[3:], " "))
	}
	return q
}

func (w *wished) of(t *testing.T, changes ...string) document.WhatIf {
	t.Helper()
	d, err := w.asked(context.Background(), strip(changes...))
	require.NoError(t, err)
	return d
}

func builtSites(t *testing.T) map[string]string {
	files, err := filepath.Glob(filepath.Join(top, "testdata", "sites-built", "*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out := map[string]string{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		out[filepath.Base(f)] = string(text)
	}
	return out
}

// The answer to adding is that of branchwork add on the same file, word for word.
func TestWhatIfAddsAsAddDoes(t *testing.T) {
	yes, no := 0, 0
	for name, text := range builtSites(t) {
		w := asking(t, text)
		for i, item := range w.about.Items {
			if name != "garage.toml" && i%4 != 0 { // enough of the larger
				continue
			}
			for _, count := range []int{1, 7} {
				n := strconv.Itoa(count)
				before, folds := w.words(t, "add "+n+" "+item.Name)
				fold, ok := folds["All that branchwork add says to "+n+" x "+item.Name]
				require.True(t, ok, "%s %s: %s", name, item.Name, before)
				cells := said(t, text, "add", "-", item.Name, "--count", n)
				wordForWord(t, cells, strings.ReplaceAll(fold, "site.toml", "standard input"))
				for _, c := range cells {
					switch {
					case strings.HasPrefix(c, "yes: "):
						yes++
						require.Contains(t, before, strings.TrimSuffix(c, "."))
					case strings.HasPrefix(c, "no: "):
						no++
						require.Contains(t, before, strings.TrimSuffix(c, "."))
						require.Contains(t, before, "What it would take: ")
					}
				}
			}
		}
	}
	require.Greater(t, yes, 3)
	require.Greater(t, no, 3)
}

func TestWhatIfAddsOnACircuitThatIsNamed(t *testing.T) {
	text := builtSites(t)["garage.toml"]
	_, folds := asking(t, text).words(t, "add 1 bar-640 garage-1")
	wordForWord(t, said(t, text, "add", "-", "bar-640", "--on", "garage-1"), folds["All that branchwork add says to 1 x bar-640"])
}

// replaced changes one place of a text.
func replaced(t *testing.T, text string, oldNew ...string) string {
	t.Helper()
	for i := 0; i < len(oldNew); i += 2 {
		require.Equal(t, 1, strings.Count(text, oldNew[i]), oldNew[i])
		text = strings.Replace(text, oldNew[i], oldNew[i+1], 1)
	}
	return text
}

// changeOrder is what branchwork diff says to two texts.
func changeOrder(t *testing.T, before, after string) []string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "before.toml")
	require.NoError(t, os.WriteFile(file, []byte(before), 0o644))
	return said(t, after, "diff", file, "-")
}

// Removing is the file with fewer of them, changed by hand.
func TestWhatIfRemovesAsTheFileWithoutThem(t *testing.T) {
	text := builtSites(t)["garage.toml"]
	w := asking(t, text)
	for _, row := range []struct {
		ask   string
		hand  []string
		notes string
	}{
		{"remove 1 bar-640 garage-3", []string{"count = 5", "count = 4", "length = \"35 ft\"\nreceptacle = \"NEMA 5-20R\"\ngfci = true\nfeeds = { bar-640 = 2 }", "length = \"35 ft\"\nreceptacle = \"NEMA 5-20R\"\ngfci = true\nfeeds = { bar-640 = 1 }"}, ""},
		{"remove 1 bar-640 garage-4", []string{"count = 5", "count = 4", text[strings.Index(text, "[circuits.garage-4]"):strings.Index(text, "[circuits.garage-5]")], ""}, "garage-4 feeds nothing any more"},
		{"remove 4 circulation", []string{text[strings.Index(text, "[fans.circulation]"):strings.Index(text, "[controllers.climate]")], "", "{ circulation = 4, climate = 1 }", "{ climate = 1 }"}, "from the circuits as they are now, the fullest first"},
	} {
		before, folds := w.words(t, row.ask)
		d := w.of(t, row.ask)
		require.NotEmpty(t, d.Change.Changes, row.ask)
		require.Empty(t, d.Adds)
		wordForWord(t, changeOrder(t, text, replaced(t, text, row.hand...)), folds["Change order: "+d.Change.Says])
		require.Contains(t, before, row.notes)
		require.Contains(t, before, "The site was planned again with this changed.")
	}
}

// Of a file without circuits the plan is that of the file with the counts changed.
func TestWhatIfPlansAgainWhatIsNotBuilt(t *testing.T) {
	raw, err := os.ReadFile(filepath.Join(top, "testdata", "sites", "racks.toml"))
	require.NoError(t, err)
	text := string(raw)
	w := asking(t, text)
	require.False(t, w.about.Built)
	item := w.about.Items[0]
	at := strings.Index(text, "."+item.Name+"]")
	require.Positive(t, at)
	old := "count = " + strconv.Itoa(item.Count)
	more := text[:at] + strings.Replace(text[at:], old, "count = "+strconv.Itoa(item.Count+7), 1)
	before, folds := w.words(t, "add 7 "+item.Name)
	d := w.of(t, "add 7 "+item.Name)
	require.Contains(t, before, "The site was planned again with this changed.")
	require.NotEmpty(t, d.Change.Changes)
	wordForWord(t, changeOrder(t, text, more), folds["Change order: "+d.Change.Says])
}

// Dimming changes heat, energy and the day, never a circuit: the figures are those of
// the file with the level written into it.
func TestWhatIfDimsWithoutTouchingACircuit(t *testing.T) {
	for name, text := range builtSites(t) {
		w := asking(t, text)
		for _, room := range w.about.Rooms {
			d := w.of(t, "dim "+room+" 55")
			require.Empty(t, d.Change.Changes, name)
			require.Empty(t, d.Circuits, name)
			require.Empty(t, d.Adds)
			require.True(t, d.Fits || d.Before.ExitStatus != 0)
			amps, energy := 0, 0
			for _, f := range d.Figures {
				switch {
				case f.Unit == "A":
					amps++
					require.Equal(t, *f.Before, *f.After, "%s: %s", name, f.What)
				case f.What == "energy of a day":
					energy++
					require.Less(t, *f.After, *f.Before, name)
				}
			}
			require.Positive(t, amps, name)
			require.Equal(t, 1, energy, name)
			require.Contains(t, d.Notes, "dimming changes heat, energy and the figures of the day only: circuits are sized on nameplate or boosted power, whatever the dimmer says, because a dimming line that opens drives the light to full")
		}
	}
	text := builtSites(t)["garage.toml"]
	var out, errs bytes.Buffer
	require.Zero(t, Run([]string{"day", "-", "--json"}, strings.NewReader(replaced(t, text, "count = 5\n", "count = 5\nlevel = 0.55\n")), &out, &errs), errs.String())
	var day document.Day
	require.NoError(t, json.Unmarshal(out.Bytes(), &day))
	after := map[string]float64{}
	for _, f := range asking(t, text).of(t, "dim bloom 55").Figures {
		if f.After != nil {
			after[f.What] = *f.After
		}
	}
	for what, want := range map[string]float64{
		"energy of a day": day.EnergyDay, "largest quarter-hour, all cycling loads on": day.Demand.Watts, "cost of a month": day.Cost.Month,
	} {
		require.Contains(t, after, what)
		require.InDelta(t, want, after[what], 1e-9, what)
	}
}

// Several changes are one after the other: adding is asked of the file with rooms
// dimmed, units taken out and what was added before it.
func TestWhatIfAsksOneAfterTheOther(t *testing.T) {
	text := builtSites(t)["garage.toml"]
	w := asking(t, text)
	d := w.of(t, "add 2 circulation", "remove 2 bar-640 garage-1", "add 2 bar-640 garage-1", "dim bloom 80")
	require.True(t, d.Fits, d.Says)
	require.Equal(t, "yes: all 2 can go on what is built", d.Says)
	require.Equal(t, []string{"fixtures of room bloom at 80 %", "2 x bar-640 fewer, 2 from garage-1", "2 x circulation more", "2 x bar-640 more on circuit garage-1"}, d.Asked)
	require.Equal(t, "garage-1", d.Adds[1].Placed[0].Circuit, "a circuit that was emptied takes what is added after")
	for _, c := range d.Change.Changes {
		require.NotEqual(t, "garage-1", c.Circuit, "two out and two in")
	}

	no := w.of(t, "add 400 bar-640", "add 1 circulation")
	require.False(t, no.Fits)
	require.Len(t, no.Adds, 1)
	require.Equal(t, []string{"1 x circulation"}, no.NotAsked)
}

func TestWhatIfSaysWhatCannotBeAsked(t *testing.T) {
	w := asking(t, builtSites(t)["garage.toml"])
	for ask, want := range map[string]string{
		"add 0 bar-640":                    "nothing is changed yet",
		"add 1 bar-64":                     `no item "bar-64" in this file did you mean "bar-640"?`,
		"add 1 bar-640 garage-77":          `no circuit "garage-77" in this file`,
		"add -1 bar-640":                   `"-1" is not a number of units`,
		"add 99999999999999999999 bar-640": "is not a number of units",
		"add 1000000 bar-640":              "out of range|at most|more than|larger|up to",
		"add 1 climate":                    "is a controller",
		"remove 6 bar-640":                 "6 x bar-640 cannot be taken out: there are 5",
		"remove 3 bar-640 garage-1":        "3 x bar-640 cannot be taken from circuit garage-1: it feeds 2",
		"remove 1 climate":                 "is a controller",
		"paint 1 bar-640":                  `"paint" is no change`,
		"dim bloom 101":                    "101 % is no level",
		"dim bloom bright":                 `"bright" is not a level in percent`,
		"dim cellar 50":                    `no room "cellar" in this file`,
	} {
		before, folds := w.words(t, ask)
		require.Empty(t, folds, ask)
		require.Regexp(t, regexp.MustCompile(want+"|"+regexp.QuoteMeta(want)), before, ask)
		require.NotContains(t, before, "fault", ask)
	}
	q := strip()
	for range mostChanges + 1 {
		q.Add("item", "bar-640")
	}
	require.Contains(t, string(w.answer(context.Background(), q.Encode())), "more than 50 changes at once")
	require.Contains(t, string(w.answer(context.Background(), "%zz;")), "<!DOCTYPE html>")
}

func TestWhatIfEndsWithItsClient(t *testing.T) {
	w := asking(t, builtSites(t)["garage.toml"])
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	require.Nil(t, w.answer(gone, strip("add 1 bar-640").Encode()))
}

// The text that a question is worked out on lives in memory: what it was made of stays.
func TestWhatIfLeavesTheTextAlone(t *testing.T) {
	text := builtSites(t)["garage.toml"]
	w := asking(t, text)
	plan, err := json.Marshal(document.NewPlan(w.before))
	require.NoError(t, err)
	var all sync.WaitGroup
	for _, ask := range []string{"add 1 bar-640", "remove 5 bar-640", "dim bloom 0"} {
		all.Go(func() { w.answer(context.Background(), strip(ask).Encode()) })
	}
	all.Wait()
	require.Equal(t, text, string(w.x.src))
	again, err := json.Marshal(document.NewPlan(w.before))
	require.NoError(t, err)
	require.Equal(t, string(plan), string(again))
	require.Empty(t, circuits.Difference(w.before.Plan, asking(t, text).before.Plan, "ground"))
}

func TestHostileNamesAreInertInAnAnswer(t *testing.T) {
	const item = `<script>alert(1)</script>" onload='x' & \u202e`
	text := strings.NewReplacer("ITEM", strings.NewReplacer(`"`, `\"`).Replace(item)).Replace(`[site]
name = "any"
use = "commercial"
[panels.LP1]
system = "120/240 V 1ph"
main = "60 A"
spaces = 12
[rooms.flower]
panel = "LP1"
lights = "06:00-18:00"
run = "20 ft"
[fixtures."ITEM"]
room = "flower"
count = 2
power = "400 W"
voltage = "120 V"
wired = true
[circuits.LP1-1]
panel = "LP1"
spaces = [1]
breaker = "20 A"
feeds = { "ITEM" = 1 }
`)
	w := asking(t, text)
	name := w.about.Items[0].Name
	require.Contains(t, name, "\u202e")
	for _, do := range []string{"add", "remove"} {
		for _, part := range []string{"answer", ""} {
			got := string(w.answer(context.Background(), url.Values{"part": {part}, "do": {do}, "by": {"1"}, "item": {name}, "on": {""}}.Encode()))
			require.NotContains(t, got, "<script>alert")
			require.NotContains(t, got, "onload='x'")
			require.NotContains(t, got, "\u202e")
			require.Contains(t, got, `\u202e`)
		}
	}
}

// FuzzWish reads what no form of ours sends.
func FuzzWish(f *testing.F) {
	f.Add("do=add&by=1&item=a&on=&room=&level=100")
	f.Add("item=a&item=b&by=3&do=remove")
	f.Add("room=r&level=-1")
	f.Fuzz(func(t *testing.T, query string) {
		q, err := url.ParseQuery(query)
		if err != nil {
			return
		}
		w, err := wishOf(q)
		if err != nil {
			return
		}
		for _, u := range append(w.more, w.fewer...) {
			require.Positive(t, u.count)
		}
		for _, d := range w.dim {
			require.True(t, d.percent >= 0 && d.percent <= 100 && d.room != "")
		}
	})
}

// Fixtures that the file lists one by one are asked for by the names that it has.
func TestWhatIfOfAListGoesByItsNames(t *testing.T) {
	var b strings.Builder
	b.WriteString("[site]\nname = \"Invented bay\"\nuse = \"commercial\"\n[panels.LP1]\nsystem = \"120/240 V 1ph\"\nmain = \"100 A\"\nspaces = 24\n[rooms.r1]\npanel = \"LP1\"\nlights = \"06:00-18:00\"\nrun = \"40 ft\"\n")
	for i := range 12 {
		fmt.Fprintf(&b, "[fixtures.bar-%d]\nroom = \"r1\"\ncount = 1\npower = \"640 W\"\nvoltage = \"240 V\"\n", i+1)
	}
	w := asking(t, b.String())
	require.Len(t, w.about.Items, 12)
	require.Equal(t, "bar-12", w.about.Items[11].Name)
	require.Len(t, w.before.Set.Loads, 1)

	dimmed := w.of(t, "dim r1 50")
	require.Equal(t, []string{"fixtures of room r1 at 50 %"}, dimmed.Asked)
	require.Empty(t, dimmed.Change.Changes, "circuits are sized on what is not dimmed")
	fewer := w.of(t, "remove 1 bar-3", "remove 1 bar-5")
	require.Equal(t, []string{"1 x bar-3 fewer", "1 x bar-5 fewer"}, fewer.Asked)
	_, err := w.asked(t.Context(), strip("remove 2 bar-3"))
	require.ErrorContains(t, err, "there are 1")
	_, err = w.asked(t.Context(), strip("remove 1 bar-99"))
	require.ErrorContains(t, err, `no item "bar-99"`)
	more := w.of(t, "add 2 bar-7")
	require.Equal(t, []string{"2 x bar-7 more"}, more.Asked)
}
