package page

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// byCount lists the keys of counts, the largest count first, then by name.
func byCount(counts map[string]int) []string {
	out := make([]string, 0, len(counts))
	for s := range counts {
		out = append(out, s)
	}
	sort.Slice(out, func(i, j int) bool {
		if counts[out[i]] != counts[out[j]] {
			return counts[out[i]] > counts[out[j]]
		}
		return units.NaturalLess(out[i], out[j])
	})
	return out
}

// mostScarce is how many scarce things are shown to readers; data formats have
// them all.
const mostScarce = 3

func scarceBlocks(d document.Plan) []Block {
	if len(d.Scarce) == 0 {
		return nil
	}
	t := Table{ID: "scarce", DataOnly: true, Columns: []Column{{Name: "panel"}, {Name: "what"}, {Name: "used"}, {Name: "there is"}, {Name: "unit"}, {Name: "used", Unit: "%"}, {Name: "may be more"}, {Name: "more of it"}, {Name: "circuit"}}}
	var l List
	for i, s := range d.Scarce {
		t.Rows = append(t.Rows, []Cell{text(s.Panel), text(s.What), number(s.Used, 2), number(s.Have, 2), text(s.Unit), number(s.UsedPercent, 1), text(yesNo(s.AtLeast)), text(s.Buys), text(s.Circuit)})
		if i < mostScarce {
			what := s.What
			if s.Circuit != "" {
				what = "circuit " + s.Circuit
			}
			item := fmt.Sprintf("%s of %s: %s of %s, %s", what, s.Panel, units.Round(s.Used, 2), amount(s.Have, 2, s.Unit), amount(s.UsedPercent, 1, "%"))
			if s.AtLeast {
				item += ", or more: the current of a load is not known"
			}
			if s.Circuit != "" {
				item += "; it is over already"
			}
			if s.Buys != "" {
				item += "; " + s.Buys
			}
			l.Items = append(l.Items, item)
		}
	}
	return []Block{Heading{2, "What runs out first"}, l, t}
}

// proofBlocks work the bounds of the panel spaces so that a person can.
func proofBlocks(d document.Plan) []Block {
	if len(d.Proofs) == 0 {
		return []Block{Heading{2, "Proof"}, Text{Text: "No loads share circuits: each circuit is there for a reason of its own."}}
	}
	t := Table{ID: "proofs", DataOnly: true, Columns: []Column{{Name: "panel"}, {Name: "room"}, {Name: "group"}, {Name: "spaces used"}, {Name: "bound"}}}
	blocks := []Block{Heading{2, "Proof of the panel spaces"}, Text{Text: "Each unit has a whole-number weight. No circuit holds more weight than Z for each space it takes, so that spaces >= total weight / Z, rounded up. " +
		"Sizes and room are in milliamperes times the whole numbers of the allowance for continuous load, currents rounded up and room rounded down."}}
	for _, p := range d.Proofs {
		t.Rows = append(t.Rows, []Cell{text(p.Panel), text(p.Room), text(p.Group), whole(int(p.Used)), whole(int(p.Bound))})
		blocks = append(blocks, Heading{3, proofHead(p)}, List{proofLines(p)})
	}
	return append(blocks, t)
}

func proofHead(p document.Proof) string {
	s := "panel " + p.Panel
	if p.Room != "" {
		s += ", room " + p.Room
	}
	s += ", " + p.Group
	if p.Controller != "" {
		s += ", through " + p.Controller
	}
	s += fmt.Sprintf(": %s used", plural(int(p.Used), "space", "spaces"))
	if p.Bound == p.Used {
		return s + ", and no arrangement takes fewer"
	}
	return s + fmt.Sprintf(", none can do with fewer than %d", p.Bound)
}

func proofLines(p document.Proof) []string {
	var out []string
	for _, c := range p.Choices {
		sum := make([]string, len(c.Parts))
		for i, part := range c.Parts {
			out = append(out, proofLine(part))
			sum[i] = strconv.FormatInt(part.Bound, 10)
		}
		if len(c.Parts) > 1 {
			out = append(out, fmt.Sprintf("together: %s = at least %s", strings.Join(sum, " + "), plural(int(c.Bound), "space", "spaces")))
		}
	}
	if len(p.Choices) > 1 {
		out = append(out, fmt.Sprintf("the least of these choices of voltage: %s", plural(int(p.Bound), "space", "spaces")))
	}
	return out
}

// proofLine is one part of a proof in one line.
func proofLine(part document.ProofPart) string {
	items := make([]string, len(part.Items))
	for i, x := range part.Items {
		items[i] = fmt.Sprintf("%s at %s, each of size %s and weight %s", times(x.Count, x.Item), amount(x.Volts, 0, "V"), big(x.Size), big(x.Weight))
	}
	kinds := make([]string, len(part.Circuits))
	for i, c := range part.Circuits {
		kinds[i] = fmt.Sprintf("a circuit of %s at %s (%s) has room for %s%s and holds a weight of at most %s", amount(c.BreakerAmps, 0, "A"), amount(c.Volts, 0, "V"),
			plural(c.Spaces, "space", "spaces"), big(c.Room), otherLimits(c), big(c.Holds))
	}
	return fmt.Sprintf("%s; %s; Z = %s; %s", strings.Join(items, ", "), strings.Join(kinds, ", "), big(part.Z), division(part))
}

// otherLimits says how many units a circuit may hold for another reason than
// its room.
func otherLimits(c document.ProofCircuit) string {
	s := ""
	for _, m := range c.Most {
		if m.Units == 0 {
			s += ", for no " + m.Item
		} else {
			s += ", for " + times(m.Units, m.Item) + " at most"
		}
	}
	return s
}

func division(part document.ProofPart) string {
	total := "total weight " + big(part.Total)
	if part.Spared > 0 {
		total += " less " + big(part.Spared) + " that existing circuits hold or that is left out"
	}
	return fmt.Sprintf("%s, over %s and rounded up: at least %s", total, big(part.Z), plural(int(part.Bound), "space", "spaces"))
}

func big(n int64) string { return units.Round(float64(n), 0) }
