package xlsx

import (
	"bytes"
	"io"
	"slices"

	"github.com/xuri/excelize/v2"

	"branchwork/cmd/internal/render/handover"
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
	f := excelize.NewFile()
	defer f.Close()
	b := book{file: f, paper: paper, strap: handover.Plain(l.Strap), title: l.Title}
	if err := b.styles(); err != nil {
		return err
	}
	if err := f.SetDocProps(&excelize.DocProperties{Title: l.Title, Creator: "branchwork"}); err != nil {
		return err
	}
	all := true
	if err := f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &all}); err != nil {
		return err
	}
	var names names
	for i, p := range plan(l) {
		name := names.take(p.title)
		if i == 0 {
			if err := f.SetSheetName("Sheet1", name); err != nil {
				return err
			}
		} else if _, err := f.NewSheet(name); err != nil {
			return err
		}
		if err := b.sheet(name, p); err != nil {
			return err
		}
	}
	var made bytes.Buffer
	if err := f.Write(&made); err != nil {
		return err
	}
	return ordered(w, made.Bytes())
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
