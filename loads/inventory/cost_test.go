package inventory

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHostileFilesCostLittle reads files that are built to be slow: each has
// some megabytes and must be answered in seconds; the limit leaves room for the race
// detector and a busy machine, and none for a step that is quadratic.
func TestHostileFilesCostLittle(t *testing.T) {
	many := func(n int, format string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	site := "[site]\nname = \"A\"\nuse = \"dwelling\"\n"
	for why, src := range map[string]string{
		"brackets in brackets":           "a = " + strings.Repeat("[", 2<<20),
		"tables in tables":               "a = " + strings.Repeat("{a=", 1<<20),
		"a dotted key without end":       strings.Repeat("a.", 1<<20) + "a = 1",
		"a header without end":           "[" + strings.Repeat("a.", 1<<20) + "a]",
		"one long text":                  site + "notes = \"" + strings.Repeat("x", 8<<20) + "\"\n",
		"one long number":                site + "notes = " + strings.Repeat("9", 2<<20),
		"one long comment":               site + "# " + strings.Repeat("é", 4<<20),
		"one long unknown key":           site + strings.Repeat("k", 1<<20) + " = 1",
		"many unknown keys on one line":  site + "[plan]\nx = { " + many(20_000, "k%d = 1, ") + "z = 1 }",
		"many references on one line":    site + "[plan]\nspread = [" + many(20_000, `"n%d", `) + "]",
		"many unknown items on one line": site + "[panels.P]\nsystem = \"120 V 1ph\"\n[circuits.c]\npanel=\"P\"\nspaces=[1]\nbreaker=\"20 A\"\nfeeds={" + many(20_000, "k%d = 1, ") + "z = 1 }",
		"many voltages on one line":      site + "[fixtures.f]\nvoltage = [" + many(20_000, `"%d V", `) + "]",
		"many unknown keys":              site + many(20_000, "k%d = 1\n"),
		"many tables":                    site + many(8_000, "[fixtures.f%d]\nroom = \"r\"\ncount = 1\n"),
		"many circuits on one space":     site + "[panels.P]\nsystem = \"120 V 1ph\"\n" + many(8_000, "[circuits.c%d]\npanel=\"P\"\nspaces=[1]\nbreaker=\"20 A\"\nfeeds={x=1}\n"),
		"panels in one long chain":       site + many(8_000, "[panels.p%d]\nsystem=\"120 V 1ph\"\nfed_by=\"p0\"\n"),
		"more keys than are read":        "a = [" + strings.Repeat("1,", maxNodes+1) + "]",
		"an open quote":                  site + "notes = \"" + strings.Repeat("x", 4<<20),
		"only newlines":                  strings.Repeat("\n", 4<<20),
	} {
		t.Run(why, func(t *testing.T) {
			start := time.Now()
			_, problems := Read("a.toml", []byte(src), testWords())
			var b strings.Builder
			require.NoError(t, Print(&b, "a.toml", []byte(src), problems, 80))
			assert.Less(t, time.Since(start), time.Minute)
			assert.Less(t, b.Len(), 100_000, "and its answer is short")
		})
	}
}

func TestFileOverTheLimitIsRefusedUnread(t *testing.T) {
	src := make([]byte, maxBytes+1)
	_, problems := Read("a.toml", src, testWords())
	require.Len(t, problems, 1)
	assert.Equal(t, "the file has 67,108,865 bytes", problems[0].Says)
	assert.Equal(t, "at most 64 MiB are read", problems[0].Remedy)
	assert.Equal(t, 1, problems[0].At.Line)
}

func TestNestingIsRefusedBeforeItCanOverflow(t *testing.T) {
	for _, open := range []string{"[", "{a="} {
		_, problems := Read("a.toml", []byte("a = "+strings.Repeat(open, 100_000)), testWords())
		require.Len(t, problems, 1)
		assert.Contains(t, problems[0].Says, "nested more than")
	}
}
