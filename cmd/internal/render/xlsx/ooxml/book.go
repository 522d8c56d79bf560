package ooxml

import (
	"archive/zip"
	"fmt"
	"io"
	"strings"
)

// Book is a workbook under way.
type Book struct {
	Title, Creator string
	sheets         []*Sheet
	names          names
	styles         styles
}

// Add opens the next sheet, under a name like the one asked for.
func (b *Book) Add(like string) *Sheet {
	s := &Sheet{Name: b.names.take(like)}
	b.sheets = append(b.sheets, s)
	return s
}

const (
	declaration = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	main        = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	relations   = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	packaged    = "http://schemas.openxmlformats.org/package/2006/"
	spreadsheet = "application/vnd.openxmlformats-officedocument.spreadsheetml."
)

// Write writes the file. What a reader works out it works out anew when it opens it.
func (b *Book) Write(w io.Writer) error {
	out := zip.NewWriter(w)
	for _, p := range b.parts() {
		part, err := out.Create(p.name) // bears no time
		if err != nil {
			return err
		}
		if _, err := io.WriteString(part, declaration+p.xml); err != nil {
			return err
		}
	}
	for i, s := range b.sheets {
		if s.last > mostRows {
			return fmt.Errorf("the sheet %q has %d rows, a workbook's have at most %d", s.Name, s.last, mostRows)
		}
		part, err := out.Create(sheetPart(i))
		if err != nil {
			return err
		}
		if err := s.write(part); err != nil {
			return err
		}
	}
	return out.Close()
}

type part struct{ name, xml string }

func sheetPart(i int) string { return fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1) }

// parts are those of the file that are not sheets, the list of all first.
func (b *Book) parts() []part {
	var types, sheets, links, titles strings.Builder
	for i, s := range b.sheets {
		fmt.Fprintf(&types, `<Override PartName="/%s" ContentType="%sworksheet+xml"/>`, sheetPart(i), spreadsheet)
		fmt.Fprintf(&sheets, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, escaped(s.Name), i+1, i+1)
		fmt.Fprintf(&links, `<Relationship Id="rId%d" Type="%s/worksheet" Target="%s"/>`, i+1, relations, strings.TrimPrefix(sheetPart(i), "xl/"))
		if s.Repeated > 0 {
			fmt.Fprintf(&titles, `<definedName name="_xlnm.Print_Titles" localSheetId="%d">%s!$1:$%d</definedName>`, i, escaped(quoted(s.Name)), s.Repeated)
		}
	}
	if titles.Len() > 0 {
		sheets.WriteString("</sheets><definedNames>" + titles.String() + "</definedNames>")
	} else {
		sheets.WriteString("</sheets>")
	}
	return []part{
		{"[Content_Types].xml", `<Types xmlns="` + packaged + `content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Override PartName="/docProps/core.xml" ContentType="application/vnd.openxmlformats-package.core-properties+xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="` + spreadsheet + `sheet.main+xml"/>` +
			`<Override PartName="/xl/styles.xml" ContentType="` + spreadsheet + `styles+xml"/>` + types.String() + `</Types>`},
		{"_rels/.rels", `<Relationships xmlns="` + packaged + `relationships">` +
			`<Relationship Id="rId1" Type="` + relations + `/officeDocument" Target="xl/workbook.xml"/>` +
			`<Relationship Id="rId2" Type="` + packaged + `relationships/metadata/core-properties" Target="docProps/core.xml"/></Relationships>`},
		{"docProps/core.xml", `<cp:coreProperties xmlns:cp="` + packaged + `metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/">` +
			`<dc:title>` + escaped(b.Title) + `</dc:title><dc:creator>` + escaped(b.Creator) + `</dc:creator></cp:coreProperties>`},
		{"xl/workbook.xml", `<workbook xmlns="` + main + `" xmlns:r="` + relations + `"><bookViews><workbookView/></bookViews><sheets>` + sheets.String() +
			`<calcPr calcId="122211" fullCalcOnLoad="1"/></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + packaged + `relationships">` + links.String() +
			fmt.Sprintf(`<Relationship Id="rId%d" Type="%s/styles" Target="styles.xml"/></Relationships>`, len(b.sheets)+1, relations)},
		{"xl/styles.xml", b.styles.xml()},
	}
}
