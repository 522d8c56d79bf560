package terminal

import (
	"bytes"
	"slices"
	"strings"

	"github.com/olekukonko/tablewriter"

	"branchwork/cmd/internal/render/page"
)

const (
	gap         = 2  // cells between two columns
	comfortable = 24 // a text column narrower than its text still reads well at this width
)

// column is a column with its cells as they are shown, not yet wrapped.
type column struct {
	head    string
	part    int
	numeric bool
	cells   []string
	natural int // the widest cell
	least   int // the longest word
}

// table prints a table, split by its parts where it is too wide as one.
func (r printer) table(t page.Table) error {
	columns := shown(t)
	first := true
	for _, group := range groups(columns, r.screen.Width) {
		for _, part := range slim(group, r.screen.Width) {
			if !first {
				r.out.WriteByte('\n')
			}
			first = false
			if err := r.grid(part); err != nil {
				return err
			}
		}
	}
	return nil
}

func shown(t page.Table) []column {
	heads, rows := t.Readable()
	columns, numeric := make([]column, len(heads)), page.Numeric(heads, rows)
	for i, h := range heads {
		c := column{head: page.Printable(h.Head()), part: h.Part, numeric: numeric[i]}
		for _, row := range rows {
			s := page.Printable(row[i].Shown())
			c.cells = append(c.cells, s)
			c.natural = max(c.natural, width(s))
			c.least = max(c.least, longestWord(s))
		}
		if c.numeric {
			c.least = c.natural
		}
		c.least = max(c.least, longestWord(c.head))
		c.natural = max(c.natural, c.least)
		columns[i] = c
	}
	return columns
}

func longestWord(s string) int {
	n := 0
	for _, w := range words(s) {
		n = max(n, width(w))
	}
	return n
}

// groups joins as many parts into one table as read well on the screen. The
// columns of part 0 open every table.
func groups(columns []column, screen int) [][]column {
	var key []column
	var parts []int
	for _, c := range columns {
		if c.part == 0 {
			key = append(key, c)
		} else if !slices.Contains(parts, c.part) {
			parts = append(parts, c.part)
		}
	}
	if len(parts) == 0 {
		return [][]column{key}
	}
	var out [][]column
	current := slices.Clone(key)
	for _, p := range parts {
		var more []column
		for _, c := range columns {
			if c.part == p {
				more = append(more, c)
			}
		}
		if joined := append(slices.Clone(current), more...); len(current) == len(key) || wanted(joined) <= screen {
			current = joined
			continue
		}
		out = append(out, current)
		current = append(slices.Clone(key), more...)
	}
	return append(out, current)
}

// broken is how much of a text column stays on one line before the table is split
// rather than its words.
const broken = 10

// slim splits a table further that is too wide for a narrow screen even so. Its
// first column opens every piece.
func slim(columns []column, screen int) [][]column {
	needs := func(c column) int {
		if c.numeric {
			return c.natural
		}
		return min(c.least, broken)
	}
	var out [][]column
	var piece []column
	used := 0
	for i, c := range columns {
		if n := gap + needs(c); len(piece) > 1 && used+n > screen {
			out = append(out, piece)
			piece, used = []column{columns[0], c}, needs(columns[0])+n
		} else {
			piece, used = append(piece, c), used+n
			if i == 0 {
				used -= gap
			}
		}
	}
	return append(out, piece)
}

// wanted is the width at which a table reads well.
func wanted(columns []column) int {
	n := gap * (len(columns) - 1)
	for _, c := range columns {
		n += max(c.least, min(c.natural, comfortable))
	}
	return n
}

// widths shares the screen among the columns: numbers keep their width, texts
// are wrapped, the widest first. Where even the longest words do not fit, words
// are broken.
func widths(columns []column, screen int) []int {
	out := make([]int, len(columns))
	room := screen - gap*(len(columns)-1)
	for i, c := range columns {
		out[i] = c.natural
		room -= c.natural
	}
	for i, c := range columns { // what is left keeps headings on one line
		if more := min(room, width(c.head)-out[i]); more > 0 {
			out[i] += more
			room -= more
		}
	}
	shrink(columns, out, &room, func(c column) int { return c.least })
	shrink(columns, out, &room, func(column) int { return 6 })
	return out
}

// shrink narrows the widest text column by one until all fit or none may give.
func shrink(columns []column, widths []int, room *int, least func(column) int) {
	for *room < 0 {
		widest := -1
		for i, c := range columns {
			if !c.numeric && widths[i] > least(c) && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return
		}
		widths[widest]--
		*room++
	}
}

func (r printer) grid(columns []column) error {
	size := widths(columns, r.screen.Width)
	align := make([]int, len(columns))
	// add appends one row, every cell of as many lines as its highest: what the
	// library fills up with itself is wider than a column of one cell.
	var b bytes.Buffer
	t := newTable(&b)
	add := func(text func(column) string) (high int) {
		high = 1
		row := make([][]string, len(columns))
		for i, c := range columns {
			row[i] = wrap(text(c), size[i])
			high = max(high, len(row[i]))
		}
		cells := make([]string, len(columns))
		for i, lines := range row {
			cells[i] = strings.Join(lines, "\n") + strings.Repeat("\n", high-max(len(lines), 1))
		}
		t.Append(cells)
		return high
	}
	for i, c := range columns {
		align[i] = tablewriter.ALIGN_LEFT
		if c.numeric {
			align[i] = tablewriter.ALIGN_RIGHT
		}
	}
	t.SetColumnAlignment(align)
	high := add(func(c column) string { return c.head })
	for k := range columns[0].cells {
		add(func(c column) string { return c.cells[k] })
	}
	t.Render()
	lines := strings.Split(strings.TrimRight(b.String(), "\n"), "\n")
	wide := 0
	for _, l := range lines {
		wide = max(wide, width(l)-gap) // every line ends in the gap
	}
	for i, l := range lines {
		r.out.WriteString(strings.TrimRight(l, " ") + "\n")
		if i == high-1 {
			r.out.WriteString(strings.Repeat("-", wide) + "\n")
		}
	}
	return nil
}

// newTable is a table without borders, two spaces between columns. Cells come
// wrapped; the library must not change them. Its headings know one alignment for all
// columns: they are given to it as a row.
func newTable(b *bytes.Buffer) *tablewriter.Table {
	t := tablewriter.NewWriter(b)
	t.SetAutoWrapText(false)
	t.SetBorder(false)
	t.SetNoWhiteSpace(true)
	t.SetTablePadding(strings.Repeat(" ", gap))
	return t
}
