package packing

import (
	"fmt"
	"slices"
)

// Problem asks for every item to be placed in a bin.
type Problem struct {
	Kinds     []Kind     // kinds of identical items
	Bins      []BinKind  // kinds of bins that may be opened, any number unless Max
	Existing  []Existing // bins that are already there; filling them is free
	Resources int        // number of resources; resource 0 is the main size
	Conflicts [][2]int   // pairs of kinds that may not share a bin
	Limits    Work       // how much work may be spent; zero means DefaultWork
}

// Kind is a number of identical items.
type Kind struct {
	Count int
	Forms []Form // the ways an item can be served, one per family at most
}

// Form is one way to serve an item. It applies only in bins of its family.
type Form struct {
	Family int
	Uses   []int64 // what one item takes of each resource
}

// BinKind is a kind of bin that may be opened.
type BinKind struct {
	Family int
	Limits []int64 // what the bin holds of each resource
	Width  int     // what an opened bin takes of the scarce row
	Cost   int64
	Max    int    // at most so many may be opened; 0 means any number
	Allow  []bool // per item kind; nil allows every kind with a form of the family
	AtMost []int  // per item kind, the most in one bin; 0 or nil means no limit
}

// Existing is a bin that is already there. It takes no width and no cost, and
// it does not count as opened.
type Existing struct {
	Family int
	Limits []int64 // what is left of each resource
	Allow  []bool  // as in BinKind
	AtMost []int   // as in BinKind, counting only items still to come
	Holds  []int   // item kinds already inside; they matter for Conflicts
}

// Limits on the numbers a problem may contain. They keep every sum the solver
// forms far inside 63 bits, so that no overflow can turn into a wrong answer.
const (
	maxUse   = 1 << 40 // one item's use of a resource, or a bin's limit
	maxCost  = 1 << 36 // the cost of one bin
	maxWidth = 1 << 16 // the width of one bin
	maxItems = 1 << 22 // all items together
)

// validate reports the first thing that makes the problem malformed.
func (p *Problem) validate() error {
	if p.Resources < 1 {
		return fmt.Errorf("resources is %d, want at least 1", p.Resources)
	}
	if err := p.validateKinds(); err != nil {
		return err
	}
	for i, b := range p.Bins {
		what := fmt.Sprintf("bin kind %d", i)
		if err := p.validateRoom(what, b.Limits, b.Allow, b.AtMost); err != nil {
			return err
		}
		if b.Width < 0 || b.Width > maxWidth {
			return fmt.Errorf("%s: width is %d, want 0 to %d", what, b.Width, maxWidth)
		}
		if b.Cost < 0 || b.Cost > maxCost {
			return fmt.Errorf("%s: cost is %d, want 0 to %d", what, b.Cost, int64(maxCost))
		}
		if b.Max < 0 {
			return fmt.Errorf("%s: max is %d, want 0 for any number or more", what, b.Max)
		}
	}
	for i, e := range p.Existing {
		what := fmt.Sprintf("existing bin %d", i)
		if err := p.validateRoom(what, e.Limits, e.Allow, e.AtMost); err != nil {
			return err
		}
		for _, k := range e.Holds {
			if k < 0 || k >= len(p.Kinds) {
				return fmt.Errorf("%s: holds kind %d, want 0 to %d", what, k, len(p.Kinds)-1)
			}
		}
	}
	for i, c := range p.Conflicts {
		for _, k := range c {
			if k < 0 || k >= len(p.Kinds) {
				return fmt.Errorf("conflict %d: kind %d, want 0 to %d", i, k, len(p.Kinds)-1)
			}
		}
	}
	return p.Limits.validate()
}

func (p *Problem) validateKinds() error {
	total := 0
	for i, k := range p.Kinds {
		if k.Count < 0 || k.Count > maxItems {
			return fmt.Errorf("kind %d: count is %d, want 0 to %d", i, k.Count, maxItems)
		}
		if total += k.Count; total > maxItems {
			return fmt.Errorf("more than %d items in all", maxItems)
		}
		if len(k.Forms) == 0 {
			return fmt.Errorf("kind %d: no form, want at least one", i)
		}
		for n, f := range k.Forms {
			if slices.ContainsFunc(k.Forms[:n], func(o Form) bool { return o.Family == f.Family }) {
				return fmt.Errorf("kind %d: two forms in family %d, want one", i, f.Family)
			}
			if err := p.validateAmounts(f.Uses); err != nil {
				return fmt.Errorf("kind %d: uses %w", i, err)
			}
		}
	}
	return nil
}

func (p *Problem) validateRoom(what string, limits []int64, allow []bool, atMost []int) error {
	if err := p.validateAmounts(limits); err != nil {
		return fmt.Errorf("%s: limits %w", what, err)
	}
	if allow != nil && len(allow) != len(p.Kinds) {
		return fmt.Errorf("%s: allow has %d entries, want none or %d", what, len(allow), len(p.Kinds))
	}
	if atMost != nil && len(atMost) != len(p.Kinds) {
		return fmt.Errorf("%s: at most has %d entries, want none or %d", what, len(atMost), len(p.Kinds))
	}
	for k, n := range atMost {
		if n < 0 {
			return fmt.Errorf("%s: at most %d of kind %d, want 0 for no limit or more", what, n, k)
		}
	}
	return nil
}

func (p *Problem) validateAmounts(amounts []int64) error {
	if len(amounts) != p.Resources {
		return fmt.Errorf("has %d entries, want %d", len(amounts), p.Resources)
	}
	for r, a := range amounts {
		if a < 0 || a > maxUse {
			return fmt.Errorf("has %d for resource %d, want 0 to %d", a, r, int64(maxUse))
		}
	}
	return nil
}

// form returns what one item of kind k uses in the family, or false where it
// cannot be served there.
func (p *Problem) form(k, family int) ([]int64, bool) {
	for _, f := range p.Kinds[k].Forms {
		if f.Family == family {
			return f.Uses, true
		}
	}
	return nil, false
}
