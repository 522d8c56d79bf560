package steps

import (
	_ "embed"
	"fmt"
	"sort"
	"sync"

	"github.com/BurntSushi/toml"
)

// How tells how a value or a rule of a source was checked.
type How string

const (
	Seen     How = "seen"     // read in the source named
	Recalled How = "recalled" // from memory, not confirmed
	Derived  How = "derived"  // arithmetic from values that are seen or recalled
	Practice How = "practice" // common practice, no source
)

// String returns the words shown to a reader.
func (h How) String() string {
	switch h {
	case Seen:
		return "seen in a source"
	case Recalled:
		return "from memory"
	case Derived:
		return "computed"
	case Practice:
		return "common practice, no source"
	}
	return "unknown"
}

// Cite points into a source: which, which edition, where in it, and how what is
// cited was checked.
type Cite struct {
	Ref     string // key in references.toml
	Edition string // "2023"; empty for sources without editions
	At      string // clause, table, equation: "210.20(A)"
	How     How
}

// CommonPractice is the cite of a fact of the trade that has no source.
var CommonPractice = Cite{Ref: "practice", How: Practice}

// String returns the cite as it is printed: "NEC 2023 210.20(A)".
func (c Cite) String() string {
	if c.Ref == "" {
		return ""
	}
	name := c.Ref
	if r, ok := references()[c.Ref]; ok {
		name = r.Short
	}
	s := name
	if c.Edition != "" {
		s += " " + c.Edition
	}
	if c.At != "" {
		s += " " + c.At
	}
	if c.How == Recalled {
		s += " (from memory)"
	}
	return s
}

// Reference is a source.
type Reference struct {
	Key   string `toml:"-"`
	Short string `toml:"short"` // as printed beside a figure
	Title string `toml:"title"`
	By    string `toml:"by"`
	URL   string `toml:"url"`
	Note  string `toml:"note"`

	Edition string `toml:"edition"` // of the code that a reproduction shows; empty: it does not say
}

//go:embed references.toml
var referencesFile string

// references is read once from the embedded list, by the first that cites; a
// broken list is our own fault and stops the program there.
var references = sync.OnceValue(func() map[string]Reference { return mustRead(referencesFile) })

func mustRead(text string) map[string]Reference {
	refs := map[string]Reference{}
	md, err := toml.Decode(text, &refs)
	if err == nil && len(md.Undecoded()) > 0 {
		err = fmt.Errorf("unknown key %s", md.Undecoded()[0])
	}
	if err != nil {
		panic("steps: references.toml: " + err.Error())
	}
	for k, r := range refs {
		r.Key = k
		refs[k] = r
	}
	return refs
}

// Lookup returns the source with that key.
func Lookup(key string) (Reference, bool) {
	r, ok := references()[key]
	return r, ok
}

// References returns all sources by key.
func References() []Reference {
	out := make([]Reference, 0, len(references()))
	for _, r := range references() {
		out = append(out, r)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Key < out[j].Key })
	return out
}
