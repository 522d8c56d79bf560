package markdown

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
)

func TestNamesFromTheFileAreNotMarkup(t *testing.T) {
	d := document.Plan{
		Site:     "<script>alert(1)</script> [x](y) `z`",
		Panels:   []document.Panel{{Name: "LP1"}},
		Circuits: []document.Circuit{{Name: "a|b\n# c", Panel: "LP1"}},
		Findings: []document.Finding{{Severity: "warning", Subject: "*x*", Message: "_y_ ~z~ ![i](j) &amp;"}},
	}
	var b bytes.Buffer
	require.NoError(t, Render(&b, page.Plan(d, page.System{})))
	out := b.String()
	unescaped := regexp.MustCompile(`\\.`).ReplaceAllString(out, ".")
	for _, bad := range []string{"<script", "[x]", "`z", "a|b", "\n# c", "*x", "_y", "~z", "[i]", "&amp;"} {
		require.NotContains(t, unescaped, bad)
	}
	require.Contains(t, out, `\<script\>`)
	require.Contains(t, out, `a\|b\\n\# c`)
	require.Contains(t, out, "**warning**")
}

func TestTablesAreWhole(t *testing.T) {
	d := document.Plan{Panels: []document.Panel{{Name: "LP1"}}, Circuits: []document.Circuit{{Name: "c", Panel: "LP1"}}}
	var b bytes.Buffer
	require.NoError(t, Render(&b, page.Plan(d, page.System{})))
	bars := 0
	for _, l := range strings.Split(b.String(), "\n") {
		if strings.HasPrefix(l, "|") {
			if bars == 0 {
				bars = strings.Count(l, "|")
			}
			require.Equal(t, bars, strings.Count(l, "|"), l)
		} else {
			bars = 0
		}
	}
}
