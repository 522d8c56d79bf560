package cli

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/cmd/internal/document"
	"branchwork/loads/anysite"
)

var (
	counted  = regexp.MustCompile(`^count = (\d+)$`)
	numbered = regexp.MustCompile(`-unit\d+$`)
)

// unitByUnit is a site whose fixtures have a table each, and how many it lists. Chains are
// left, whose longest may be longer than one unit, and what the site calls by name.
func unitByUnit(s anysite.Site) (out anysite.Site, units int) {
	text := s.Text()
	for _, x := range s.Tables {
		name, fixture := strings.CutPrefix(x.Header, "fixtures.")
		name = strings.Trim(name, `"`)
		at := slices.IndexFunc(x.Keys, counted.MatchString)
		own := func(k string) bool { return strings.HasPrefix(k, "link") || strings.HasPrefix(k, "interlock") }
		if !fixture || at < 0 || slices.ContainsFunc(x.Keys, own) || strings.Contains(text, fmt.Sprintf("spread = [%q]", name)) {
			out.Tables = append(out.Tables, x)
			continue
		}
		keys := slices.Clone(x.Keys)
		keys[at] = "count = 1"
		n, _ := strconv.Atoi(counted.FindStringSubmatch(x.Keys[at])[1])
		for i := range n {
			out.Tables = append(out.Tables, anysite.Table{Header: fmt.Sprintf("fixtures.%q", fmt.Sprintf("%s-unit%d", name, i+1)), Keys: keys})
			if !strings.ContainsAny(name, " .") { // a name that needs no quotes has none
				out.Tables[len(out.Tables)-1].Header = fmt.Sprintf("fixtures.%s-unit%d", name, i+1)
			}
		}
		units += n
	}
	return out, units
}

// Fixtures that are alike are planned the same whether the file counts or lists them:
// the same circuits with as many of each, wires, panels, heat and day.
func TestAListIsPlannedAsACount(t *testing.T) {
	tried, most := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		site := anysite.Any(t)
		if strings.Contains(site.Text(), "[circuits.") { // circuits feed items by name
			return
		}
		list, units := unitByUnit(site)
		tried, most = tried+1, max(most, units)
		one := unnamed(t, answered(t, site.Text(), "plan", "-", "--json"))
		other := unnamed(t, answered(t, list.Text(), "plan", "-", "--json"))
		require.Equal(t, one, other, "%s\n%s", site.Text(), list.Text())
	})
	if tried >= enough {
		require.Greater(t, most, 64, "some lists are read without what repeats")
	}
}

// The same of a works, whose rooms hold thirty kinds.
func TestALargeListIsPlannedAsACount(t *testing.T) {
	for _, n := range []int{100, 2500} {
		one := largeSite{fixtures: n}
		list := one
		list.listed = true
		name := regexp.MustCompile(`(strip-\d+-r\d+)-(\d+)`)
		out := name.ReplaceAllString(answered(t, string(list.toml()), "plan", "-", "--json"), "${1}-unit$2")
		require.Equal(t, unnamed(t, answered(t, string(one.toml()), "plan", "-", "--json")), unnamed(t, out))
		require.Equal(t, 2, strings.Count(out, `"strip-1-r1-unit2"`), "on its circuit and among those listed; told no oftener the answer stays as long as the list")
	}
}

// unnamed is a plan with the units of each circuit added up by item, and without what
// names units in words.
func unnamed(t require.TestingT, out string) map[string]any {
	var d struct {
		Circuits       []struct{ Loads []document.Load }
		Unfed          []document.Unfed
		VoltageChoices []document.VoltageChoice `json:"voltage_choices"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	var all map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &all))
	for _, k := range []string{"findings", "assumptions", "proofs", "verdict", "scarce", "listed"} {
		delete(all, k)
	}
	for i, c := range d.Circuits {
		count := map[string]int{}
		for k, l := range c.Loads {
			item := numbered.ReplaceAllString(l.Item, "")
			l.Item, l.Count, l.FirstUnit, l.UnitStep, l.Added = "", 0, 0, 0, 0
			alike, err := json.Marshal(l)
			require.NoError(t, err)
			count[item+string(alike)] += c.Loads[k].Count
		}
		all["circuits"].([]any)[i].(map[string]any)["loads"] = count
	}
	unfed := map[document.Unfed]int{}
	for _, u := range d.Unfed {
		n := u.Count
		u.Item, u.Count, u.Line = numbered.ReplaceAllString(u.Item, ""), 0, 0
		unfed[u] += n
	}
	for i := range d.VoltageChoices {
		c := &d.VoltageChoices[i]
		c.Item = numbered.ReplaceAllString(c.Item, "")
	}
	all["unfed"], all["voltage_choices"] = unfed, d.VoltageChoices
	return all
}
