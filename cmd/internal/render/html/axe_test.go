package html_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPageIsAccessible runs axe-core over the page, wide, narrow and dark.
// BRANCHWORK_AXE names its script, axe.min.js of the npm package axe-core.
func TestPageIsAccessible(t *testing.T) {
	script := os.Getenv("BRANCHWORK_AXE")
	if script == "" {
		t.Skip("BRANCHWORK_AXE names no axe.min.js: accessibility was not checked by axe-core")
	}
	axe, err := os.ReadFile(script)
	require.NoError(t, err)
	b := chromium(t)
	b.call("Page.setBypassCSP", map[string]any{"enabled": true}, nil) // for axe: the page itself forbids every script
	for _, name := range []string{"tent", "garage"} {
		page, _ := report(t, site(name), "--date", "2026-03-14")
		b.open(page)
		var there bool
		b.eval("(() => {"+string(axe)+"; return true})()", &there)
		for _, look := range []struct {
			width  int
			scheme string
		}{{1280, "light"}, {360, "light"}, {1280, "dark"}} {
			b.look(look.width, "", look.scheme)
			var ran struct {
				Passes     int      `json:"passes"`
				Violations []string `json:"violations"`
			}
			b.wait(`axe.run().then(r => ({passes: r.passes.length, violations: r.violations.map(v => v.id + ', ' + v.impact + ': ' + v.nodes[0].html)}))`, &ran)
			require.Greater(t, ran.Passes, 20)
			require.Empty(t, ran.Violations, "%s at %d, %s", name, look.width, look.scheme)
		}
	}
}
