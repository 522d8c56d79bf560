package outside

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// spiceValue is a line of ngspice's print: "name = 1.2e+01".
var spiceValue = regexp.MustCompile(`(?m)^(\w+)\s+=\s+([-+\d.eE]+)\s*$`)

// Spice lets ngspice solve a circuit: elements, an analysis (".op" or
// ".ac lin 1 60 60"), and for each name the expression to be printed.
func Spice(t testing.TB, tool Tool, elements, analysis string, print map[string]string) map[string]float64 {
	t.Helper()
	var b strings.Builder
	b.WriteString("* drawn\n" + elements + ".options reltol=1e-9 abstol=1e-12 vntol=1e-12 itl1=500\n" + analysis + "\n.control\nset numdgt=12\nrun\n")
	for name, expression := range print {
		b.WriteString("let " + name + " = " + expression + "\nprint " + name + "\n")
	}
	b.WriteString("quit 0\n.endc\n.end\n")
	file := filepath.Join(t.TempDir(), "circuit.cir")
	require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o600))
	out, err := exec.Command(tool.At, "-b", file).CombinedOutput()
	require.NoError(t, err, "%s", tail(string(out)))
	got := map[string]float64{}
	for _, m := range spiceValue.FindAllStringSubmatch(string(out), -1) {
		x, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
		got[m[1]] = x
	}
	require.Len(t, got, len(print), "%s", tail(string(out)))
	return got
}

// tail is the end of what ngspice says.
func tail(s string) string { return s[max(0, len(s)-2000):] }
