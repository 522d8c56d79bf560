package cli

import (
	"encoding/json"
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/cmd/internal/document"
	"branchwork/loads/anysite"
)

// cannotBeAsked is why add asks no circuit of a site that is sound: nothing is in the
// wall, a controller is one of a kind, or nothing in reach supplies a described load.
var cannotBeAsked = regexp.MustCompile(`has no circuits to add to|is a controller, and a file has one of each|--voltage: no panel in reach supplies`)

// An answer is yes or no and never a fault of ours: what add says yes to holds
// when the changed inventory is worked out anew, which add does itself.
func TestAYesHoldsWhenItIsWorkedOutAnew(t *testing.T) {
	tried, yes, no := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		tried++
		built := anysite.Built(t)
		site := built.Text()
		args := []string{"add", "--json", "-", rapid.SampledFrom(append(built.Fed, built.Items...)).Draw(t, "item"), "--count", fmt.Sprint(rapid.IntRange(1, 3).Draw(t, "n"))}
		if rapid.IntRange(0, 3).Draw(t, "described") == 0 {
			args = append(args[:3], "--power", "90 W", "--voltage", "100-277 V", "--room", "room-1", "--as", rapid.SampledFrom(kindsOfLoad()).Draw(t, "as"))
		}
		status, out, errs := ran(site, args...)
		if status == statusInput {
			require.Regexp(t, cannotBeAsked, errs, site)
			return
		}
		require.Contains(t, []int{statusHolds, statusBroken}, status, "%s\n%s", site, errs)
		var d struct {
			Fits    bool
			Count   int
			Needs   string
			Placed  []document.Placed
			Refused []document.Refused
		}
		require.NoError(t, json.Unmarshal([]byte(out), &d))
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
	if tried >= enough {
		require.Positive(t, yes)
		require.Positive(t, no)
	}
}
