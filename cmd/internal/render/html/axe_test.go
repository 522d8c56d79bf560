package html_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	reference "branchwork/codes/outside"
)

// axeCore is the script of the npm package axe-core, to be run in a page.
func axeCore(t *testing.T) string {
	script, err := os.ReadFile(filepath.Join(reference.Module(t, "axe-core").At, "axe.min.js"))
	require.NoError(t, err)
	return "(() => {" + string(script) + "; return true})()"
}

// TestPageIsAccessible runs axe-core over the page, wide and narrow, and its check
// of contrasts in the dark.
func TestPageIsAccessible(t *testing.T) {
	axe := axeCore(t)
	b := chromium(t)
	b.call("Page.setBypassCSP", map[string]any{"enabled": true}, nil) // for axe: the page itself forbids every script
	for _, look := range []struct {
		site   string
		width  int
		scheme string
		rules  string // axe.run's options
		least  int    // rules that found something to pass
	}{{"garage", 1280, "light", "", 20}, {"tent", 360, "light", "", 20}, {"tent", 1280, "dark", "{runOnly: ['color-contrast']}", 1}} {
		page, _ := report(t, site(look.site), "--date", "2026-03-14")
		b.open(page)
		b.look(look.width, "", look.scheme)
		var there bool
		b.eval(axe, &there)
		var ran struct {
			Passes     int      `json:"passes"`
			Violations []string `json:"violations"`
		}
		b.wait(`axe.run(`+look.rules+`).then(r => ({passes: r.passes.length, violations: r.violations.map(v => v.id + ', ' + v.impact + ': ' + v.nodes[0].html)}))`, &ran)
		require.GreaterOrEqual(t, ran.Passes, look.least)
		require.Empty(t, ran.Violations, "%s at %d, %s", look.site, look.width, look.scheme)
	}
}
