// Package outside is what tests use to compare with something outside the
// project: published cases and reference tools. It writes down what was compared
// and how far apart the values were, so that the page of evidence can say it.
//
// Variables of the environment:
//
//	BRANCHWORK_REQUIRE     tools and data whose absence fails instead of skipping:
//	                       "ngspice cbc glpsol highs psychrolib axe-core
//	                       @taplo/cli chromium partition"
//	BRANCHWORK_NPM         folder where npm installed highs, psychrolib, axe-core and
//	                       @taplo/cli
//	BRANCHWORK_REFERENCES  folder of the reference data
//	BRANCHWORK_SEED        repeats a run of drawn cases
//	BRANCHWORK_WORST       file to which every comparison adds a line
//	BRANCHWORK_UPDATE=1    writes testdata/published/measured and compared anew
package outside

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// Tool is a program or a library that can be asked, or data that can be read.
type Tool struct {
	Name    string // as printed: "ngspice"
	At      string // its command, or the folder of its package
	Version string
}

// from says where each tool is had.
func from(name string) string {
	return map[string]string{
		"ngspice": "Debian package ngspice", "cbc": "Debian package coinor-cbc", "glpsol": "Debian package glpk-utils",
		"highs": "npm package highs, in the folder that BRANCHWORK_NPM names", "psychrolib": "npm package psychrolib, in the folder that BRANCHWORK_NPM names",
		"axe-core": "npm package axe-core, in the folder that BRANCHWORK_NPM names", "@taplo/cli": "npm package @taplo/cli, in the folder that BRANCHWORK_NPM names",
	}[name]
}

// Command finds a program. Without it the test is skipped, or fails where
// BRANCHWORK_REQUIRE names it.
func Command(t testing.TB, name string) Tool {
	t.Helper()
	at, err := exec.LookPath(name)
	if err != nil {
		Absent(t, name, "there is no command "+name+" here ("+from(name)+")")
	}
	about := map[string]struct{ args, version string }{
		"ngspice": {"--version", `ngspice-(\d+)`}, "cbc": {"- quit", `Version: ([\d.]+)`}, "glpsol": {"--version", `Solver v?([\d.]+)`},
	}[name]
	out, _ := exec.Command(at, strings.Fields(about.args)...).CombinedOutput()
	version := ""
	if m := regexp.MustCompile(about.version).FindSubmatch(out); len(m) > 1 {
		version = string(m[1])
	}
	return Tool{title(name), at, version}
}

// Module finds an npm package; node runs it. Without both the test is skipped,
// or fails where BRANCHWORK_REQUIRE names the package.
func Module(t testing.TB, name string) Tool {
	t.Helper()
	dir := filepath.Join(os.Getenv("BRANCHWORK_NPM"), "node_modules", name)
	raw, err := os.ReadFile(filepath.Join(dir, "package.json"))
	if os.Getenv("BRANCHWORK_NPM") == "" || err != nil {
		Absent(t, name, "it is not here ("+from(name)+")")
	}
	if _, err := exec.LookPath("node"); err != nil {
		Absent(t, name, "there is no node here to run it")
	}
	var about struct{ Version string }
	if err := json.Unmarshal(raw, &about); err != nil {
		t.Fatal(err)
	}
	return Tool{title(name), dir, about.Version}
}

func title(name string) string {
	if s := map[string]string{"cbc": "CBC", "glpsol": "GLPK", "highs": "HiGHS", "psychrolib": "PsychroLib"}[name]; s != "" {
		return s
	}
	return name
}

// Reference returns a file of the reference data, which is not part of the
// module: it lies in the folder that BRANCHWORK_REFERENCES names, or in
// shared/references beside the module.
func Reference(t testing.TB, name string, path ...string) []byte {
	t.Helper()
	dir := os.Getenv("BRANCHWORK_REFERENCES")
	if dir == "" {
		dir = filepath.Join(root(t), "..", "shared", "references")
	}
	data, err := os.ReadFile(filepath.Join(append([]string{dir}, path...)...))
	if err != nil {
		Absent(t, name, "the reference data is not here: "+err.Error())
	}
	return data
}

// required reports whether BRANCHWORK_REQUIRE names a tool.
func required(name string) bool {
	return slices.Contains(strings.Fields(os.Getenv("BRANCHWORK_REQUIRE")), name)
}

// Absent skips the test because a tool is not there, or fails it where the tool
// is required.
func Absent(t testing.TB, name, why string) {
	t.Helper()
	if required(name) {
		t.Fatalf("BRANCHWORK_REQUIRE names %s, but %s", name, why)
	}
	t.Skipf("not compared with %s: %s", title(name), why)
}

// Seed starts the drawing of cases: of the time of day, so that every run draws
// others; BRANCHWORK_SEED repeats a run. What is written down is always of seed 1.
func Seed(t testing.TB) int64 {
	t.Helper()
	seed := time.Now().UnixNano()
	if Updating() {
		seed = 1
	}
	if s := os.Getenv("BRANCHWORK_SEED"); s != "" {
		n, err := strconv.ParseInt(s, 10, 64)
		if err != nil {
			t.Fatalf("BRANCHWORK_SEED: %v", err)
		}
		seed = n
	}
	t.Logf("BRANCHWORK_SEED=%d", seed)
	return seed
}

// Updating reports whether files of expected output are to be written anew; never
// in continuous integration.
func Updating() bool { return os.Getenv("BRANCHWORK_UPDATE") == "1" && os.Getenv("CI") != "true" }

// root is the folder of the module, place that of the package under test within it.
func root(t testing.TB) string {
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
}

func place(t testing.TB) string {
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	rel, err := filepath.Rel(root(t), dir)
	if err != nil {
		t.Fatal(err)
	}
	return filepath.ToSlash(rel)
}
