package html_test

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/cli"
)

// wide lists what sticks out of the page to the right, scroll boxes and what is
// in them left out.
const wide = `(() => {
	const most = document.documentElement.clientWidth, out = [];
	for (const e of document.querySelectorAll('body *')) {
		if (e.closest('.scroll, .skip, thead') && getComputedStyle(e.closest('.scroll') || e).overflowX !== 'visible' || e.closest('svg') && e.tagName !== 'svg') continue;
		const r = e.getBoundingClientRect();
		if (r.width > 0 && r.right > most + 1 && !e.closest('.skip')) out.push(e.tagName + '.' + e.className + ' ' + Math.round(r.right) + ' ' + (e.textContent || '').slice(0, 40));
	}
	return [document.documentElement.scrollWidth, out.slice(0, 5)];
})()`

// tall lists what a page break may not go through and is higher than a page.
const tall = `(most => [...document.querySelectorAll('main *')].filter(e => getComputedStyle(e).breakInside === 'avoid').map(e => [e.tagName + '.' + e.className + ' ' + (e.textContent || '').slice(0, 40), e.getBoundingClientRect().height])
	.filter(x => x[1] > most).map(x => x[0] + ' ' + Math.round(x[1])))`

func fits(t *testing.T, b *browser, width int, media string) {
	t.Helper()
	b.look(width, media, "light")
	var got []any
	b.eval(wide, &got)
	require.Empty(t, got[1], "beyond the edge at %d %s", width, media)
	require.LessOrEqual(t, got[0].(float64), float64(width), "width of the page at %d %s", width, media)
}

// Paper between the margins of the print style, in CSS pixels.
const (
	letterWidth, letterHeight = 725, 942  // (215.9 − 24) mm by (279.4 − 30) mm
	a4Width, a4Height         = 703, 1009 // (210 − 24) mm by (297 − 30) mm
)

// fitsPaper demands that nothing is cut off at the right of a sheet, and nothing
// that stays in one piece is higher than a sheet.
func fitsPaper(t *testing.T, b *browser, width, height int) {
	t.Helper()
	fits(t, b, width, "print")
	var got []string
	b.eval(fmt.Sprintf("%s(%d)", tall, height), &got)
	require.Empty(t, got, "higher than paper of %d by %d", width, height)
}

func TestPageInABrowser(t *testing.T) {
	b := chromium(t)
	for _, name := range []string{"garage", "tent", "warehouse", "greenhouse", "racks"} { // the building is the same, many times
		page, doc := report(t, site(name), "--date", "2026-03-14")
		b.open(page)
		for _, width := range []int{360, 768, 1280} {
			fits(t, b, width, "")
		}
		fitsPaper(t, b, letterWidth, letterHeight)
		fitsPaper(t, b, a4Width, a4Height)
		quiet(t, b)
		readBack(t, b, doc)
	}
	hostileInABrowser(t, b)
}

// quiet demands that the page asked for nothing but itself and complained of
// nothing.
func quiet(t *testing.T, b *browser) {
	for _, e := range b.events {
		switch e.Method {
		case "Network.requestWillBeSent":
			var r struct {
				Request struct {
					URL string `json:"url"`
				} `json:"request"`
			}
			require.NoError(t, json.Unmarshal(e.Params, &r))
			require.True(t, strings.HasPrefix(r.Request.URL, "file://") && strings.HasSuffix(r.Request.URL, "/page.html"), r.Request.URL)
		case "Runtime.exceptionThrown", "Runtime.consoleAPICalled", "Log.entryAdded":
			require.Fail(t, e.Method, string(e.Params))
		}
	}
}

// readBack compares the figures as the browser shows them with the document.
func readBack(t *testing.T, b *browser, doc any) {
	var figures [][3]string
	b.eval(`[...document.querySelectorAll('[data-key]')].map(e => [e.dataset.key, e.dataset.scale || '', e.textContent.trim()])`, &figures)
	require.Greater(t, len(figures), 200)
	there := map[string]bool{}
	for _, f := range figures {
		require.NoError(t, agrees(doc, f[0], f[1], f[2], false))
		there[f[0]] = true
	}
	circuits, _ := dig(doc, "plan.circuits")
	for i, c := range circuits.([]any) {
		for _, key := range []string{"breaker_amps", "load_amps", "required_amps", "free_amps", "conductor.drop_percent"} {
			if x := c.(map[string]any); key == "free_amps" && (x["stands_alone"] == true || x["required_amps"].(float64) > x["breaker_amps"].(float64)) {
				require.False(t, there[fmt.Sprintf("plan.circuits.%d.%s", i, key)], "circuit %d takes nothing else", i)
				continue
			}
			require.True(t, there[fmt.Sprintf("plan.circuits.%d.%s", i, key)], "circuit %d: %s", i, key)
		}
	}
}

func hostileInABrowser(t *testing.T, b *browser) {
	toml := strings.NewReplacer("'PANEL'", tomlString(script), "'ROOM'", tomlString(long), "'ITEM'", tomlString(quoted)).Replace(hostileSite)
	page := run(t, write(t, toml), "html")
	b.open(page)
	fits(t, b, 360, "")
	fitsPaper(t, b, a4Width, a4Height)
	quiet(t, b)
	var scripts int
	b.eval(`document.scripts.length + document.querySelectorAll('[onload]').length`, &scripts)
	require.Zero(t, scripts)
}

func TestPagePrints(t *testing.T) {
	b := chromium(t)
	page, _ := report(t, site("garage"), "--date", "2026-03-14")
	b.open(page)
	for _, paper := range []struct {
		name          string
		width, height float64 // inches
	}{{"Letter", 8.5, 11}, {"A4", 210 / 25.4, 297 / 25.4}} {
		var pdf struct {
			Data string `json:"data"`
		}
		b.call("Page.printToPDF", map[string]any{"paperWidth": paper.width, "paperHeight": paper.height, "printBackground": false}, &pdf)
		raw, err := base64.StdEncoding.DecodeString(pdf.Data)
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(raw, []byte("%PDF-")), paper.name)
		require.Greater(t, pages(raw), 16, "%s: cover, and each part on a page of its own", paper.name)
		require.Less(t, pages(raw), 60, paper.name)
	}
}

// pages counts the pages of a PDF.
func pages(pdf []byte) int {
	return bytes.Count(pdf, []byte("/Type /Page\n")) + bytes.Count(pdf, []byte("/Type /Page/"))
}

// TestTheCommandThatHelpPrintsMakesAPDF runs the command line with which help
// tells how to make a PDF.
func TestTheCommandThatHelpPrintsMakesAPDF(t *testing.T) {
	name := browserName(t)
	var help bytes.Buffer
	require.Zero(t, cli.Run([]string{"report", "--help"}, nil, &help, io.Discard))
	_, route, found := strings.Cut(help.String(), "chromium ")
	require.True(t, found)
	words := strings.Fields(strings.SplitN(route, "\n", 2)[0])

	folder := t.TempDir()
	page, _ := report(t, site("tent"), "--part", "utility")
	require.NoError(t, os.WriteFile(filepath.Join(folder, words[len(words)-1]), page, 0o600))
	cmd := exec.Command(name, append(quietly(filepath.Join(folder, "home")), words...)...)
	cmd.Dir = folder
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", said)
	pdf, err := os.ReadFile(filepath.Join(folder, "plan.pdf"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, pages(pdf), 9, "cover, and eight sections for the utility, each on a page of its own")
	require.Less(t, pages(pdf), 16)
}

// TestPageIsLegibleLightAndDark computes the contrast of text, quiet text, links
// and severities against the ground, as WCAG 2 defines it; 4.5 is its level AA.
func TestPageIsLegibleLightAndDark(t *testing.T) {
	b := chromium(t)
	page, _ := report(t, site("tent"))
	b.open(page)
	for _, scheme := range []string{"light", "dark"} {
		b.look(1280, "", scheme)
		var colours map[string][]float64
		b.eval(`(() => {
			const c = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
			const rgb = s => { c.fillStyle = s; c.fillRect(0, 0, 1, 1); return [...c.getImageData(0, 0, 1, 1).data].slice(0, 3); };
			const of = (q, p) => rgb(getComputedStyle(document.querySelector(q))[p]);
			return {ground: of('body', 'backgroundColor'), text: of('body', 'color'), quiet: of('.quiet', 'color'), link: of('main a', 'color'), violation: of('.violation .severity', 'color'), advice: of('.advice .severity', 'color')};
		})()`, &colours)
		ground := luminance(colours["ground"])
		require.Equal(t, scheme == "dark", ground < 0.2, "%s ground %v", scheme, colours["ground"])
		for what, c := range colours {
			if what != "ground" {
				l := luminance(c)
				require.Greater(t, (max(l, ground)+0.05)/(min(l, ground)+0.05), 4.5, "%s in %s", what, scheme)
			}
		}
	}
}

func luminance(rgb []float64) float64 {
	part := func(x float64) float64 {
		x /= 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*part(rgb[0]) + 0.7152*part(rgb[1]) + 0.0722*part(rgb[2])
}
