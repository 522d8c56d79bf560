// Package published reads the outside values that the program is checked
// against: rows in the files of testdata/published, each with its source and its
// own tolerance.
//
//	subject   = "voltage drop"
//	unchecked = ["the temperature of the conductors: ..."]
//
//	[[case]]
//	id     = "F03"
//	says   = "95 A continuous: device 125 A; conductor 1 AWG copper"
//	source = { ref = "jh-conductor-selection", at = "worked example, p. 43" }
//	how    = "seen"
//	in     = { continuous = "95 A", terminals = "75 C" }
//	want   = { device = "125 A", conductor = "1 AWG" }
//	tol    = 0
//
// unchecked lists what of the subject no case covers. The tolerance is half a unit
// of the last digit published, in the base unit of the value wanted and not in the
// one it is written in: 50, of VA, where "12.3 kVA" is wanted. A case that we
// compute differently stays in the file, with the reason under differs; want then
// holds what we compute.
//
// The reader is strict: an unknown key, a case without a source, a source that is
// not in the list of references, an id used twice and a file without cases are
// errors, and a reader can ask which values it never looked at.
package published

import (
	"fmt"
	"io/fs"
	"math"
	"sort"
	"strings"

	"github.com/BurntSushi/toml"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Case is one published value or worked example.
type Case struct {
	ID      string
	Says    string // in one line, with the published answer
	Source  Source
	How     steps.How // seen: the answer is published; derived: computed beside a source; practice, recalled
	In      *Values
	Want    *Values
	Tol     float64 // absolute, in the base unit of what is wanted: A, V, W, VA, °C
	Differs string  // why we compute something else than the source
}

// Source points to where a case was published.
type Source struct {
	Ref string `toml:"ref"` // key in references.toml
	At  string `toml:"at"`
}

// Subject is a file of cases.
type Subject struct {
	File      string
	Name      string   // "voltage drop"
	Unchecked []string // what of the subject no case covers
	Cases     []Case
}

// Load reads the cases of one file.
func Load(files fs.FS, name string) ([]Case, error) {
	s, err := Read(files, name)
	return s.Cases, err
}

// Read reads one file of cases.
func Read(files fs.FS, name string) (Subject, error) {
	var doc struct {
		Subject   string   `toml:"subject"`
		Unchecked []string `toml:"unchecked"`
		Case      []struct {
			ID      string         `toml:"id"`
			Says    string         `toml:"says"`
			Source  Source         `toml:"source"`
			How     steps.How      `toml:"how"`
			In      map[string]any `toml:"in"`
			Want    map[string]any `toml:"want"`
			Tol     *float64       `toml:"tol"`
			Differs string         `toml:"differs"`
		} `toml:"case"`
	}
	md, err := toml.DecodeFS(files, name, &doc)
	if err != nil {
		return Subject{}, fmt.Errorf("%s: %w", name, err)
	}
	for _, k := range md.Undecoded() {
		return Subject{}, fmt.Errorf("%s: unknown key %s", name, k)
	}
	if len(doc.Case) == 0 {
		return Subject{}, fmt.Errorf("%s: no cases", name)
	}
	if doc.Subject == "" {
		return Subject{}, fmt.Errorf("%s: no subject", name)
	}
	out := Subject{File: name, Name: doc.Subject, Unchecked: doc.Unchecked}
	seen := map[string]bool{}
	for _, c := range doc.Case {
		_, known := steps.Lookup(c.Source.Ref)
		switch {
		case c.ID == "" || c.Says == "":
			return Subject{}, fmt.Errorf("%s: case %q: id and says are needed", name, c.ID)
		case seen[c.ID]:
			return Subject{}, fmt.Errorf("%s: case %q stands twice", name, c.ID)
		case c.Source.Ref == "":
			return Subject{}, fmt.Errorf("%s: case %q has no source", name, c.ID)
		case strings.TrimSpace(c.Source.At) == "":
			return Subject{}, fmt.Errorf("%s: case %q: no place in its source", name, c.ID)
		case !known:
			return Subject{}, fmt.Errorf("%s: case %q: no reference %q", name, c.ID, c.Source.Ref)
		case c.How != steps.Seen && c.How != steps.Derived && c.How != steps.Recalled && c.How != steps.Practice:
			return Subject{}, fmt.Errorf("%s: case %q: how %q", name, c.ID, c.How)
		case len(c.Want) == 0:
			return Subject{}, fmt.Errorf("%s: case %q wants nothing", name, c.ID)
		case c.Tol == nil || !(*c.Tol >= 0) || math.IsInf(*c.Tol, 1): // within which all would be
			return Subject{}, fmt.Errorf("%s: case %q has no tolerance", name, c.ID)
		}
		seen[c.ID] = true
		out.Cases = append(out.Cases, Case{ID: c.ID, Says: c.Says, Source: c.Source, How: c.How, In: values(c.In), Want: values(c.Want), Tol: *c.Tol, Differs: c.Differs})
	}
	return out, nil
}

// Names returns the files of cases, in order.
func Names(files fs.FS) ([]string, error) { return fs.Glob(files, "*.toml") }

// Unread returns the keys of a case that nobody asked for, in order: an input or
// an expectation that would otherwise pass without being looked at.
func (c Case) Unread() []string {
	var out []string
	for _, v := range []struct {
		of   string
		vals *Values
	}{{"in", c.In}, {"want", c.Want}} {
		for k := range v.vals.data {
			if !v.vals.read[k] {
				out = append(out, v.of+"."+k)
			}
		}
	}
	sort.Strings(out)
	return out
}

// Values are the inputs or the expectations of a case by key. It remembers what
// was read.
type Values struct {
	data map[string]any
	read map[string]bool
}

func values(m map[string]any) *Values {
	if m == nil {
		m = map[string]any{}
	}
	return &Values{data: m, read: map[string]bool{}}
}

// Has reports whether there is a value, without counting it as read.
func (v *Values) Has(key string) bool {
	_, ok := v.data[key]
	return ok
}

// Get returns a value of a plain kind: string, bool, int64, float64 or a list.
func Get[T any](v *Values, key string) (T, error) {
	var zero T
	raw, ok := v.data[key]
	if !ok {
		return zero, fmt.Errorf("no value %q", key)
	}
	x, ok := raw.(T)
	if !ok {
		return zero, fmt.Errorf("%q is %T, not %T", key, raw, zero)
	}
	v.read[key] = true
	return x, nil
}

// Number returns a number without a unit.
func (v *Values) Number(key string) (float64, error) {
	if i, err := Get[int64](v, key); err == nil {
		return float64(i), nil
	}
	x, err := Get[float64](v, key)
	if err == nil && math.IsNaN(x) {
		return 0, fmt.Errorf("%q is no number", key)
	}
	return x, err
}

// Quantity returns a value written with its unit.
func Quantity[T units.Quantity](v *Values, key string) (T, error) {
	s, err := Get[string](v, key)
	if err != nil {
		return 0, err
	}
	x, err := units.Parse[T](s)
	if err != nil {
		return 0, fmt.Errorf("%q: %w", key, err)
	}
	return x, nil
}
