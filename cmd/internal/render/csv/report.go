package csv

import (
	"bytes"
	"strconv"

	"branchwork/cmd/internal/render/handover"
)

// File is one file of comma-separated values.
type File struct {
	Name  string
	Bytes []byte
}

// Contents is the name of the file that lists the others.
const Contents = "contents.csv"

// Report prints every table of a report as a file of its own, named after the
// table, and a list of them. The first record of a file is its headings; figures
// have no thousands separators; a field is empty where it has no meaning and reads
// ? where a figure is not known.
func Report(l handover.Layout) ([]File, error) {
	var all []handover.Table
	title := map[string]string{}
	for _, s := range l.Sections {
		for _, t := range s.All() {
			if title[t.Name] == "" {
				title[t.Name] = s.Title
			}
			all = append(all, t)
		}
	}
	list := [][]string{{"file", "section", "records"}}
	var out []File
	for _, t := range handover.Together(all) {
		records := [][]string{}
		columns := told(t)
		head := []string{}
		for _, i := range columns {
			head = append(head, guard(t.Columns[i].Label()))
		}
		for _, r := range t.Rows {
			fields := []string{}
			for _, i := range columns {
				fields = append(fields, field(r.Cells[i]))
			}
			records = append(records, fields)
		}
		f, err := file(t.Name+".csv", append([][]string{head}, records...))
		if err != nil {
			return nil, err
		}
		out = append(out, f)
		list = append(list, []string{f.Name, title[t.Name], strconv.Itoa(len(records))})
	}
	f, err := file(Contents, list)
	return append(out, f), err
}

func file(name string, records [][]string) (File, error) {
	var b bytes.Buffer
	err := write(&b, records)
	return File{name, b.Bytes()}, err
}

// told lists the columns that tell something.
func told(t handover.Table) []int {
	var out []int
	for i, c := range t.Columns {
		if !c.Nav {
			out = append(out, i)
		}
	}
	return out
}

func field(c handover.Cell) string {
	switch {
	case c.Empty():
		return ""
	case c.Number != nil:
		return c.Number.Data()
	}
	return guard(c.Data())
}
