package xlsx

import (
	"io"
	"slices"

	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/xlsx/ooxml"
)

// Paper is the size of paper that the sheets are set up for.
type Paper int

// Papers, numbered as workbooks number them.
const (
	Letter Paper = 1
	A4     Paper = 9
)

// Render prints the workbook. The same report gives the same bytes.
func Render(w io.Writer, l handover.Layout, paper Paper) error {
	b := book{file: ooxml.Book{Title: l.Title, Creator: "branchwork"}, paper: paper, strap: handover.Plain(l.Strap)}
	b.looks = looksOf(&b.file)
	for _, p := range plan(l) {
		b.sheet(p)
	}
	return b.file.Write(w)
}

// sheetPlan is what goes on a sheet.
type sheetPlan struct {
	title  string
	blocks []handover.Block
}

// tells reports whether a sheet has more than headings and remarks.
func (s sheetPlan) tells() bool {
	return slices.ContainsFunc(s.blocks, func(b handover.Block) bool {
		switch b.(type) {
		case handover.Table, handover.List:
			return true
		}
		return false
	})
}

// plan divides a report into sheets, in its order: the cover, the sheets that
// tables name, and one of each section for the rest. Tables of one name that share
// a sheet are joined.
func plan(l handover.Layout) []sheetPlan {
	sheets := []sheetPlan{coverPlan(l.Cover)}
	on := map[string]int{}
	open := func(title string) *sheetPlan {
		i, ok := on[title]
		if !ok {
			i = len(sheets)
			on[title] = i
			sheets = append(sheets, sheetPlan{title: title})
		}
		return &sheets[i]
	}
	for _, s := range l.Sections {
		for _, x := range s.Blocks {
			t, ok := handover.AsTable(x)
			switch {
			case ok && len(t.Rows) == 0:
			case ok && t.Sheet != "":
				p := open(t.Sheet)
				p.blocks = append(p.blocks, t)
			case ok:
				open(s.Title).add(t)
			default:
				open(s.Title).add(x)
			}
		}
	}
	sheets = slices.DeleteFunc(sheets, func(s sheetPlan) bool { return !s.tells() })
	for i, s := range sheets {
		if tables := onlyTables(s.blocks); len(tables) > 1 {
			sheets[i].blocks = nil
			for _, t := range handover.Together(tables) {
				sheets[i].blocks = append(sheets[i].blocks, t)
			}
		}
	}
	return sheets
}

func (s *sheetPlan) add(b handover.Block) { s.blocks = append(s.blocks, b) }

// onlyTables returns the tables of a sheet that has nothing else and is named by
// its tables.
func onlyTables(blocks []handover.Block) []handover.Table {
	var out []handover.Table
	for _, b := range blocks {
		t, ok := b.(handover.Table)
		if !ok || t.Sheet == "" {
			return nil
		}
		out = append(out, t)
	}
	return out
}

// coverPlan sets the cover out: facts, verdict, the few figures asked for first.
func coverPlan(c handover.Cover) sheetPlan {
	says := func(s string) handover.Paragraph {
		return handover.Paragraph{Spans: []handover.Span{{Text: s}}}
	}
	facts := handover.Fields{Rows: append(append([]handover.Field{{Name: "Site", Spans: c.Site}, {Name: "What", Spans: []handover.Span{{Text: c.What}}}}, c.Facts...), c.Verdict.Counts...)}
	figures := handover.Fields{}
	for _, f := range c.Figures {
		what, unit := handover.Plain(f.What), f.Unit
		if unit != "" {
			unit += " "
		}
		figures.Rows = append(figures.Rows, handover.Field{Name: "Figure", Spans: append(append([]handover.Span{}, f.Value...), handover.Span{Text: unit + what})})
	}
	return sheetPlan{title: "Cover", blocks: []handover.Block{says(c.Verdict.Says), facts.Table(), figures.Table(), handover.Paragraph{Spans: c.Assumed}, handover.Paragraph{Spans: c.Missing}, says(c.Unknown), says(c.Caution)}}
}
