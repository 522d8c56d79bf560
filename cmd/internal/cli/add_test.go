package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/cmd/internal/document"
)

// anySite draws a small invented site with circuits in the wall.
func anySite(t *rapid.T) string {
	var b strings.Builder
	fmt.Fprintf(&b, "[site]\nname = \"any\"\nuse = %q\n", rapid.SampledFrom([]string{"dwelling", "commercial"}).Draw(t, "use"))
	fmt.Fprintf(&b, "[panels.LP1]\nsystem = \"120/240 V 1ph\"\nmain = \"%d A\"\nspaces = 12\n", rapid.SampledFrom([]int{20, 30, 60}).Draw(t, "main"))
	if rapid.Bool().Draw(t, "peak") {
		fmt.Fprintf(&b, "measured_peak = { peak = \"%d A\", months = 12 }\n", rapid.IntRange(1, 20).Draw(t, "measured"))
	}
	b.WriteString("[rooms.flower]\npanel = \"LP1\"\nlights = \"06:00-18:00\"\nrun = \"20 ft\"\n")
	var feeds [3]strings.Builder
	n := rapid.IntRange(1, 3).Draw(t, "circuits")
	for _, item := range []string{"a", "b", "c"} {
		table, hours, least := "fixtures", "", 0
		if item == "c" {
			table, hours, least = "fans", "hours = \"always\"\n", 1 // a circuit feeds something
		}
		count := 0
		for i := range n {
			k := rapid.IntRange(least, 2).Draw(t, item)
			count += k
			if k > 0 {
				fmt.Fprintf(&feeds[i], "%s = %d, ", item, k)
			}
		}
		count += rapid.IntRange(0, 1).Draw(t, "unfed")
		extra := ""
		if rapid.Bool().Draw(t, "known "+item) && item != "c" {
			extra = "leakage = \"0.3 mA\"\nmax_per_breaker = 8\n"
		}
		fmt.Fprintf(&b, "[%s.%s]\nroom = \"flower\"\ncount = %d\npower = \"%d W\"\nvoltage = %q\n%s%s", table, item, max(1, count),
			rapid.IntRange(20, 700).Draw(t, "watts"), rapid.SampledFrom([]string{"120 V", "100-277 V"}).Draw(t, "volts"), hours, extra)
	}
	for i := range n {
		fmt.Fprintf(&b, "[circuits.LP1-%d]\npanel = \"LP1\"\nspaces = [%d]\nbreaker = \"%d A\"\n", i+1, i+1, rapid.SampledFrom([]int{15, 20}).Draw(t, "breaker"))
		if rapid.Bool().Draw(t, "known") {
			b.WriteString("conductor = \"12 AWG copper THHN\"\nground = \"12 AWG copper\"\nreceptacle = \"5-15\"\ngfci = true\n")
		}
		if rapid.IntRange(0, 3).Draw(t, "metered") == 0 {
			fmt.Fprintf(&b, "measured = \"%d A\"\n", rapid.IntRange(1, 16).Draw(t, "amps"))
		}
		fmt.Fprintf(&b, "feeds = { %s }\n", strings.TrimSuffix(feeds[i].String(), ", "))
	}
	return b.String()
}

// An answer is yes or no and never a fault of ours: what add says yes to holds
// when the changed inventory is worked out anew, which add does itself.
func TestAYesHoldsWhenItIsWorkedOutAnew(t *testing.T) {
	yes, no := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		site := anySite(t)
		args := []string{"add", "--json", "-", rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "item"), "--count", fmt.Sprint(rapid.IntRange(1, 3).Draw(t, "n"))}
		if rapid.IntRange(0, 3).Draw(t, "described") == 0 {
			args = append(args[:3], "--power", "90 W", "--voltage", "120 V", "--room", "flower", "--as", rapid.SampledFrom(kindsOfLoad()).Draw(t, "as"))
		}
		var out, errs bytes.Buffer
		status := Run(args, strings.NewReader(site), &out, &errs)
		require.Contains(t, []int{0, 1}, status, "%s\n%s", site, errs.String())
		var d struct {
			Fits    bool
			Count   int
			Needs   string
			Placed  []document.Placed
			Refused []document.Refused
		}
		require.NoError(t, json.Unmarshal(out.Bytes(), &d))
		require.Equal(t, status == 0, d.Fits)
		sum := 0
		for _, p := range d.Placed {
			sum += p.Count
			if p.LimitAmps != nil {
				require.InDelta(t, p.LoadAmps, *p.LimitAmps**p.AfterPercent/100, 1e-9)
				require.LessOrEqual(t, *p.AfterPercent, 100+1e-6)
			}
		}
		if d.Fits {
			yes++
			require.Equal(t, d.Count, sum)
			require.Empty(t, d.Needs)
		} else {
			no++
			require.Less(t, sum, d.Count)
			require.NotEmpty(t, d.Needs)
			require.NotEmpty(t, d.Refused)
		}
	})
	require.Positive(t, yes)
	require.Positive(t, no)
}
