package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"branchwork/cmd/internal/document"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"branchwork": func() { os.Exit(Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// top is the project's folder, seen from this package.
const top = "../../.."

// TestScripts runs the command as a person does. BRANCHWORK_UPDATE=1 rewrites
// the expected output in the scripts; never in CI, where a golden that changes
// is a failure.
func TestScripts(t *testing.T) {
	update := os.Getenv("BRANCHWORK_UPDATE") == "1"
	if update && os.Getenv("CI") == "true" {
		t.Fatal("BRANCHWORK_UPDATE is not for CI")
	}
	root, err := filepath.Abs(top)
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join(top, "testdata", "scripts"),
		UpdateScripts:       update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("SITES", filepath.Join(root, "testdata", "sites"))
			e.Setenv("BUILT", filepath.Join(root, "testdata", "sites-built"))
			e.Setenv("NO_COLOR", "")
			e.Setenv("ESC", "\x1b")
			e.Setenv("LF", "\n")
			e.Setenv("CRLF", "\r\n")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "field": field, "valid": valid, "widest": widest, "repeats": repeats, "edit": edit,
		},
	})
}

// edit FILE OLD NEW: every OLD in a file of the script becomes NEW, in which \n is
// a line end; there must be one.
func edit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: edit file old new")
	}
	text := ts.ReadFile(args[0])
	if !strings.Contains(text, args[1]) {
		ts.Fatalf("no %q in %s", args[1], args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.ReplaceAll(text, args[1], strings.ReplaceAll(args[2], `\n`, "\n"))), 0o644))
}

// exits N CMD...: the command ends with exactly this status.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits N command...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var ended *exec.ExitError
	switch err := ts.Exec(args[1], args[2:]...); {
	case errors.As(err, &ended):
		got = ended.ExitCode()
	case err != nil:
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// field FILE PATH VALUE [±TOLERANCE]: one value of a JSON document. PATH goes
// through keys and indices: circuits.0.load_amps. In a list, the name of a thing may
// stand for its index (panels.LP1.spaces), # is its length, feeds=ITEM the first
// circuit that feeds an item and #feeds=ITEM the number of those.
func field(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 || len(args) > 4 {
		ts.Fatalf("usage: field file path value [±tolerance]")
	}
	var doc any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &doc))
	got, err := dig(doc, strings.Split(args[1], "."))
	if err != nil {
		ts.Fatalf("%s: %v", args[1], err)
	}
	if len(args) == 3 {
		if s := fmt.Sprint(got); s != args[2] {
			ts.Fatalf("%s is %s, want %s", args[1], s, args[2])
		}
		return
	}
	want, errW := strconv.ParseFloat(args[2], 64)
	tolerance, errT := strconv.ParseFloat(strings.TrimPrefix(args[3], "±"), 64)
	number, ok := got.(float64)
	if errW != nil || errT != nil || !ok {
		ts.Fatalf("%s: %v, %v and %v do not compare", args[1], got, args[2], args[3])
	}
	if math.Abs(number-want) > tolerance {
		ts.Fatalf("%s is %v, want %v ± %v", args[1], number, want, tolerance)
	}
}

func dig(doc any, path []string) (any, error) {
	for _, p := range path {
		switch x := doc.(type) {
		case map[string]any:
			v, ok := x[p]
			if !ok {
				return nil, fmt.Errorf("no key %q", p)
			}
			doc = v
		case []any:
			v, err := element(x, p)
			if err != nil {
				return nil, err
			}
			doc = v
		default:
			return nil, fmt.Errorf("nothing under %q", p)
		}
	}
	return doc, nil
}

func element(list []any, p string) (any, error) {
	if p == "#" {
		return float64(len(list)), nil
	}
	if item, ok := strings.CutPrefix(p, "#feeds="); ok {
		return float64(len(feeding(list, item))), nil
	}
	if item, ok := strings.CutPrefix(p, "feeds="); ok && len(feeding(list, item)) > 0 {
		return feeding(list, item)[0], nil
	}
	for _, x := range list {
		if m, ok := x.(map[string]any); ok {
			for _, key := range []string{"name", "id", "circuit", "panel", "item", "room", "rule", "subject", "source"} {
				if m[key] == p {
					return x, nil
				}
			}
		}
	}
	i, err := strconv.Atoi(p)
	if err != nil || i < 0 || i >= len(list) {
		return nil, fmt.Errorf("no element %q", p)
	}
	return list[i], nil
}

// feeding returns the circuits of a list that feed an item.
func feeding(list []any, item string) []any {
	var out []any
	for _, x := range list {
		m, _ := x.(map[string]any)
		loads, _ := m["loads"].([]any)
		for _, l := range loads {
			if load, ok := l.(map[string]any); ok && load["item"] == item {
				out = append(out, x)
			}
		}
	}
	return out
}

// valid FILE: the document meets the JSON Schema that its schema key names.
func valid(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 1 {
		ts.Fatalf("usage: [!] valid file")
	}
	err := validate(ts.ReadFile(args[0]))
	if neg == (err == nil) {
		ts.Fatalf("valid: %v", err)
	}
}

func validate(text string) error {
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		return err
	}
	m, ok := doc.(map[string]any)
	if !ok {
		return errors.New("no object")
	}
	id, _ := m["schema"].(string)
	_, rest, _ := strings.Cut(id, "/")
	name, _, _ := strings.Cut(rest, "/")
	raw, ok := document.Schema(name)
	if !ok {
		return fmt.Errorf("no schema %q", id)
	}
	schema, err := jsonschema.UnmarshalJSON(strings.NewReader(string(raw)))
	if err != nil {
		return err
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", schema); err != nil {
		return err
	}
	compiled, err := c.Compile("schema.json")
	if err != nil {
		return err
	}
	return compiled.Validate(doc)
}

// widest N FILE: no line takes more than N characters.
func widest(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: widest N file")
	}
	n, err := strconv.Atoi(args[0])
	ts.Check(err)
	for i, line := range strings.Split(ts.ReadFile(args[1]), "\n") {
		if w := len([]rune(line)); w > n {
			ts.Fatalf("line %d takes %d: %s", i+1, w, line)
		}
	}
}

// repeats N CMD...: N runs give the same bytes.
func repeats(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: repeats N command...")
	}
	n, err := strconv.Atoi(args[0])
	ts.Check(err)
	first := ""
	for i := range n {
		var ended *exec.ExitError
		if err := ts.Exec(args[1], args[2:]...); err != nil && !errors.As(err, &ended) {
			ts.Fatalf("%v", err)
		}
		out := ts.ReadFile("stdout")
		if i > 0 && out != first {
			ts.Fatalf("run %d differs from the first", i+1)
		}
		first = out
	}
}
