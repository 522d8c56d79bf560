package published

import (
	"encoding/csv"
	"fmt"
	"io/fs"
	"strconv"
)

// Figure is one value of a case beside what we compute for it, as the test of the
// case wrote it down.
type Figure struct {
	Test   string // package and function
	File   string
	Case   string
	Key    string
	Want   string  // as in the file
	Got    string  // in the unit of what is wanted
	Names  bool    // a name or a whole choice, not a measure
	Off    float64 // difference as a share of what is wanted; of temperatures, above absolute zero
	Share  float64 // difference as a share of the tolerance; zero where that is zero
	Within float64 // tolerance as a share of what is wanted
}

// Same reports whether we compute exactly what is wanted. Where that is 0 or the
// difference too small a share of it to be written, the share of the tolerance says.
func (f Figure) Same() bool { return f.Off == 0 && f.Share == 0 }

// Comparison is a run of one of our functions beside a reference tool.
type Comparison struct {
	Test    string // package and function
	Subject string
	What    string // that is compared
	Tool    string
	Version string
	Cases   int
	Most    float64 // largest difference allowed
	Worst   float64 // largest difference seen
	Unit    string  // of both
}

// heads of the files of figures and of comparisons.
var (
	figureHead     = []string{"test", "file", "case", "key", "want", "got", "kind", "off", "share", "within"}
	comparisonHead = []string{"test", "subject", "what", "tool", "version", "cases", "most", "worst", "unit"}
)

// Digits is how many digits of a figure are written down.
const Digits = 7

// Row returns the figure as it stands in its file.
func (f Figure) Row() []string {
	kind := "measure"
	if f.Names {
		kind = "name"
	}
	return []string{f.Test, f.File, f.Case, f.Key, f.Want, f.Got, kind, short(f.Off), short(f.Share), short(f.Within)}
}

// Row returns the comparison as it stands in its file.
func (c Comparison) Row() []string {
	return []string{c.Test, c.Subject, c.What, c.Tool, c.Version, strconv.Itoa(c.Cases), Rough(c.Most), Rough(c.Worst), c.Unit}
}

// short prints a difference with two digits; noise of rounding is none.
func short(x float64) string {
	if x < 1e-9 {
		return "0"
	}
	return Rough(x)
}

// Rough prints a difference or a tolerance with two digits.
func Rough(x float64) string { return strconv.FormatFloat(x, 'g', 2, 64) }

// FigureRows returns the head and the rows of a file of figures.
func FigureRows(list []Figure) [][]string {
	out := [][]string{figureHead}
	for _, f := range list {
		out = append(out, f.Row())
	}
	return out
}

// ComparisonRows returns the head and the rows of a file of comparisons.
func ComparisonRows(list []Comparison) [][]string {
	out := [][]string{comparisonHead}
	for _, c := range list {
		out = append(out, c.Row())
	}
	return out
}

// Files of figures and of comparisons beside the cases.
const (
	Measured = "measured/*.csv"
	Compared = "compared/*.csv"
)

// Figures reads the files of figures that match a pattern.
func Figures(files fs.FS, pattern string) ([]Figure, error) {
	return every(files, pattern, figureHead, func(r []string) (Figure, error) {
		f := Figure{Test: r[0], File: r[1], Case: r[2], Key: r[3], Want: r[4], Got: r[5], Names: r[6] == "name"}
		var err error
		if f.Off, err = strconv.ParseFloat(r[7], 64); err != nil {
			return f, err
		}
		if f.Share, err = strconv.ParseFloat(r[8], 64); err != nil {
			return f, err
		}
		f.Within, err = strconv.ParseFloat(r[9], 64)
		return f, err
	})
}

// Comparisons reads the files of comparisons that match a pattern.
func Comparisons(files fs.FS, pattern string) ([]Comparison, error) {
	return every(files, pattern, comparisonHead, func(r []string) (Comparison, error) {
		c := Comparison{Test: r[0], Subject: r[1], What: r[2], Tool: r[3], Version: r[4], Unit: r[8]}
		var err error
		if c.Cases, err = strconv.Atoi(r[5]); err != nil {
			return c, err
		}
		if c.Most, err = strconv.ParseFloat(r[6], 64); err != nil {
			return c, err
		}
		c.Worst, err = strconv.ParseFloat(r[7], 64)
		return c, err
	})
}

// every reads the rows of all files of a pattern, in order.
func every[T any](files fs.FS, pattern string, head []string, read func([]string) (T, error)) ([]T, error) {
	names, err := fs.Glob(files, pattern)
	if err != nil {
		return nil, err
	}
	var out []T
	for _, name := range names {
		f, err := files.Open(name)
		if err != nil {
			return nil, err
		}
		r := csv.NewReader(f)
		r.FieldsPerRecord = len(head)
		rows, err := r.ReadAll()
		_ = f.Close() // only read
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		for i, row := range rows {
			if i == 0 {
				continue
			}
			x, err := read(row)
			if err != nil {
				return nil, fmt.Errorf("%s, row %d: %w", name, i+1, err)
			}
			out = append(out, x)
		}
	}
	return out, nil
}
