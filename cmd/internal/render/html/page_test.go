package html_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
	reference "branchwork/codes/outside"
)

// dig follows a data-key into the document.
func dig(doc any, key string) (any, bool) {
	for _, p := range strings.Split(key, ".") {
		switch x := doc.(type) {
		case map[string]any:
			v, ok := x[p]
			if !ok {
				return nil, false
			}
			doc = v
		case []any:
			i, err := strconv.Atoi(p)
			if err != nil || i < 0 || i >= len(x) {
				return nil, false
			}
			doc = x[i]
		default:
			return nil, false
		}
	}
	return doc, true
}

// shown is a number of the document as a reader of the page should see it: in
// the unit system, times its scale.
func shown(x float64, key, scale string, metric bool) float64 {
	if scale != "" {
		by, _ := strconv.ParseFloat(scale, 64)
		return x * by
	}
	has := func(suffix string) bool { return strings.HasSuffix(key, suffix) }
	switch {
	case has("_c") && !metric:
		return x*9/5 + 32
	case !metric:
		return x
	case has("_ft"):
		return x * 0.3048
	case has("_ft2") && !strings.HasSuffix(key, "r_ft2_f_h_btu"):
		return x * 0.3048 * 0.3048
	case has("_btuh"):
		return x / 3412.141633
	case has("_pints_per_day"), has("_pints"):
		return x * 0.473176473
	case has("_cfm"):
		return x * 1.69901082
	}
	return x
}

func plainNumber(s string) (float64, int, error) {
	s = strings.ReplaceAll(strings.ReplaceAll(s, ",", ""), "−", "-")
	digits := 0
	if i := strings.IndexByte(s, '.'); i >= 0 {
		digits = len(s) - i - 1
	}
	x, err := strconv.ParseFloat(s, 64)
	return x, digits, err
}

// agrees reports whether a text is the number of the document, rounded to the
// decimals that it is shown with.
func agrees(doc any, key, scale, text string, metric bool) error {
	v, ok := dig(doc, key)
	if !ok {
		return fmt.Errorf("%s: not in the document", key)
	}
	if v == nil {
		if text != "?" {
			return fmt.Errorf("%s: null is shown as %q", key, text)
		}
		return nil
	}
	want, ok := v.(float64)
	if !ok {
		return fmt.Errorf("%s: %v is no number", key, v)
	}
	got, digits, err := plainNumber(text)
	if err != nil {
		return fmt.Errorf("%s: %q is no number", key, text)
	}
	// covers come in three units; which one stands beside them, not in their key
	options := []float64{shown(want, key, scale, metric)}
	if metric && strings.Contains(key, "equipment.covers") {
		options = []float64{want / 3412.141633, want * 0.473176473, want * 1.69901082}
	}
	half := 0.5000001
	for range digits {
		half /= 10
	}
	for _, w := range options {
		if d := got - w; d <= half && d >= -half {
			return nil
		}
	}
	return fmt.Errorf("%s: %v is shown as %q", key, want, text)
}

func TestEveryFigureIsThatOfTheDocument(t *testing.T) {
	for _, name := range all(t) {
		for _, metric := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s metric=%v", name, metric), func(t *testing.T) {
				args := []string{"--date", "2026-03-14"}
				if metric {
					args = append(args, "--units", "metric")
				}
				page, doc := report(t, site(name), args...)
				figures := 0
				for _, e := range read(t, page) {
					key, ok := e.attr["data-key"]
					if !ok {
						continue
					}
					figures++
					require.NoError(t, agrees(doc, key, e.attr["data-scale"], strings.TrimSpace(e.text), metric))
				}
				require.Greater(t, figures, 200)
			})
		}
	}
}

// TestEveryCircuitIsOnThePage demands each circuit's line in the schedule with
// its load, and each circuit's home run.
func TestEveryCircuitIsOnThePage(t *testing.T) {
	for _, name := range all(t) {
		page, doc := report(t, site(name))
		ids, keys := map[string]bool{}, map[string]bool{}
		for _, e := range read(t, page) {
			ids[e.attr["id"]] = true
			keys[e.attr["data-key"]] = true
		}
		list, _ := dig(doc, "plan.circuits")
		require.NotEmpty(t, list)
		for i := range list.([]any) {
			require.True(t, ids[fmt.Sprintf("c%d", i)] && ids[fmt.Sprintf("h%d", i)] && ids[fmt.Sprintf("wc%d", i)], "%s circuit %d", name, i)
			require.True(t, keys[fmt.Sprintf("plan.circuits.%d.load_amps", i)])
		}
	}
}

func TestAComparisonThatMustFail(t *testing.T) {
	doc := map[string]any{"a": 13.606, "n": nil}
	require.NoError(t, agrees(doc, "a", "", "13.61", false))
	require.NoError(t, agrees(doc, "n", "", "?", false))
	require.Error(t, agrees(doc, "a", "", "13.60", false), "not rounded, cut")
	require.Error(t, agrees(doc, "a", "", "13.7", false))
	require.Error(t, agrees(doc, "n", "", "0", false), "unknown is not nothing")
	require.Error(t, agrees(doc, "b", "", "1", false))
}

// outside is what would ask for something beyond the page.
var outside = regexp.MustCompile(`(?i)url\(|@import|@font-face|expression\(|javascript:`)

func TestPageStandsAlone(t *testing.T) {
	for _, name := range all(t) {
		t.Run(name, func(t *testing.T) { standsAlone(t, first(report(t, site(name)))) })
	}
	for _, part := range document.Readers() {
		t.Run(part, func(t *testing.T) { standsAlone(t, first(report(t, site("tent"), "--part", part))) })
	}
}

func first(page []byte, _ any) []byte { return page }

func standsAlone(t *testing.T, page []byte) {
	elements := read(t, page)
	ids := map[string]bool{}
	for _, e := range elements {
		if id, ok := e.attr["id"]; ok {
			require.False(t, ids[id], "id %q twice", id)
			require.NotEmpty(t, id)
			ids[id] = true
		}
	}
	for _, e := range elements {
		require.NotContains(t, []string{"script", "iframe", "object", "embed", "link", "img", "base", "form", "input", "image", "foreignObject", "audio", "video"}, e.name)
		for k, v := range e.attr {
			require.NotContains(t, []string{"src", "srcset", "style", "background", "action", "data", "ping", "poster"}, k, "%s", e.name)
			require.False(t, strings.HasPrefix(k, "on"), "%s has %s", e.name, k)
			switch k {
			case "href":
				require.True(t, strings.HasPrefix(v, "#") && ids[v[1:]], "%s %q leads nowhere", e.name, v)
			case "aria-labelledby":
				for _, id := range strings.Fields(v) {
					require.True(t, ids[id], "%s is labelled by %q", e.name, id)
				}
			}
		}
		if e.name == "style" {
			require.NotRegexp(t, outside, e.text)
			require.NotContains(t, strings.ToLower(e.text), "http")
		}
		if e.name == "svg" && e.attr["aria-hidden"] == "" {
			require.Equal(t, "img", e.attr["role"])
			require.NotEmpty(t, e.attr["aria-labelledby"])
		}
	}
}

func TestNothingIsCalledGood(t *testing.T) {
	praise := regexp.MustCompile(`(?i)\b(complies|compliant|compliance|approved|safe|OK|guaranteed|certified)\b`)
	for _, name := range all(t) {
		page, _ := report(t, site(name))
		for _, e := range read(t, page) {
			if e.name == "body" {
				require.NotRegexp(t, praise, e.text, name)
			}
		}
	}
}

func TestPartsAreForTheirReaders(t *testing.T) {
	for part, has := range map[string][2]string{
		"electrician": {"home-runs materials directories one-line working", "load-letter hvac rooms"},
		"hvac":        {"hvac hours working", "directories materials load-letter one-line"},
		"utility":     {"load-letter load-calculation one-line hours", "hvac directories working"},
		"inspector":   {"load-calculation directories equipment working evidence floor-plans", "materials load-letter"},
		"grower":      {"rooms directories hours hvac", "materials load-letter working"},
	} {
		page, _ := report(t, site("tent"), "--part", part)
		ids := map[string]bool{}
		for _, e := range read(t, page) {
			ids[e.attr["id"]] = true
		}
		for _, id := range append(strings.Fields(has[0]), "cover", "contents", "findings", "questions", "cautions", "signature") {
			require.True(t, ids[id], "%s needs %s", part, id)
		}
		for _, id := range strings.Fields(has[1]) {
			require.False(t, ids[id], "%s has no use for %s", part, id)
		}
	}
}

func TestTheSameFileGivesTheSameBytes(t *testing.T) {
	page := run(t, site("warehouse"), "html")
	for range 5 {
		require.Equal(t, string(page), string(run(t, site("warehouse"), "html")))
	}
}

// TestGoldenPage compares the page for the utility and the inspector, working
// left out, and the drawings of the garage. BRANCHWORK_UPDATE=1 writes them anew.
func TestGoldenPage(t *testing.T) {
	page, doc := report(t, site("garage"), "--date", "2026-03-14", "--part", "utility,grower")
	golden(t, "report_garage.html", page)
	// by hand: 2 × 640 W / (120 V · 0.98) = 10.884 A on the first circuit
	require.NoError(t, agrees(doc, "plan.circuits.0.load_amps", "", "10.88", false))
}

func golden(t *testing.T, name string, got []byte) {
	file := filepath.Join("..", "..", "..", "..", "testdata", "golden", name)
	if reference.Updating() {
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, got, 0o644))
		return
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), string(got), "BRANCHWORK_UPDATE=1 go test ./cmd/internal/render/html")
}
