package xlsx

import (
	"fmt"
	"strconv"
	"strings"

	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/xlsx/ooxml"
)

// formula writes how a figure follows from others of its table, whose first row
// stands in row first and whose columns stand where at says.
func formula(f handover.Formula, at map[int]int, first int) string {
	var terms []string
	for _, t := range f.Terms {
		terms = append(terms, term(t, at, first))
	}
	sum := strings.Join(terms, "+")
	if len(terms) > 1 && (f.Times != 0 || f.By != nil) {
		sum = "(" + sum + ")"
	}
	if f.Times != 0 {
		sum += "*" + strconv.FormatFloat(f.Times, 'g', 15, 64)
	}
	if f.By != nil {
		sum += "*" + term(*f.By, at, first)
	}
	return sum
}

func term(t handover.Term, at map[int]int, first int) string {
	figures := area(at[t.Column], first+t.From, first+t.To)
	switch {
	case t.Is != "":
		return fmt.Sprintf(`SUMIF(%s,"%s",%s)`, area(at[t.Where], first+t.From, first+t.To), strings.ReplaceAll(t.Is, `"`, `""`), figures)
	case t.From == t.To:
		return figures
	}
	return "SUM(" + figures + ")"
}

// area names cells of a column: "C4", "C4:C9".
func area(column, from, to int) string {
	if from == to {
		return ooxml.At(column, from)
	}
	return ooxml.At(column, from) + ":" + ooxml.At(column, to)
}
