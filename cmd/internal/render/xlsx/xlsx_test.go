package xlsx_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"branchwork/cmd/internal/cli"
	"branchwork/cmd/internal/render/xlsx"
)

// report makes a report of a file in some form.
func report(t *testing.T, file, format string, args ...string) []byte {
	out := filepath.Join(t.TempDir(), "report")
	var said bytes.Buffer
	require.Less(t, cli.Run(append([]string{"report", file, "--date", "2026-03-14", "--format", format, "-o", out}, args...), nil, io.Discard, &said), 2, "%s", &said)
	raw, err := os.ReadFile(out)
	require.NoError(t, err)
	return raw
}

func site(name string) string {
	return filepath.Join("..", "..", "..", "..", "testdata", "sites", name+".toml")
}

func opened(t *testing.T, file string, args ...string) (*excelize.File, []byte) {
	raw := report(t, file, "xlsx", args...)
	f, err := excelize.OpenReader(bytes.NewReader(raw))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, f.Close()) })
	return f, raw
}

// row finds the row of a sheet that reads so in its first cells.
func row(t *testing.T, f *excelize.File, sheet string, begins ...string) (int, []string) {
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	require.NoError(t, err, sheet)
	for i, r := range rows {
		found := len(r) >= len(begins)
		for k := 0; found && k < len(begins); k++ {
			found = r[k] == begins[k]
		}
		if found {
			return i + 1, r
		}
	}
	require.Fail(t, "no row", "%s: %v", sheet, begins)
	return 0, nil
}

func float(t *testing.T, s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return x
}

// TestFormulasAgreeWithTheProgram works every formula out and compares with the
// figure that the program worked out itself and stored beside it.
func TestFormulasAgreeWithTheProgram(t *testing.T) {
	for _, name := range sites() {
		for _, units := range []string{"us", "metric"} {
			if units == "metric" && name != "warehouse" {
				continue
			}
			f, _ := opened(t, site(name), "--units", units)
			compared := map[string]int{}
			for _, sheet := range f.GetSheetList() {
				if sheet == "Working" {
					continue
				}
				rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
				require.NoError(t, err)
				for y, r := range rows {
					for x := range r {
						at, err := excelize.CoordinatesToCellName(x+1, y+1)
						require.NoError(t, err)
						formula, err := f.GetCellFormula(sheet, at)
						require.NoError(t, err)
						if formula == "" {
							continue
						}
						got, err := f.CalcCellValue(sheet, at, excelize.Options{RawCellValue: true})
						require.NoError(t, err, "%s %s =%s", sheet, at, formula)
						stored := float(t, r[x])
						require.InDelta(t, stored, float(t, got), 1e-6*math.Max(1, math.Abs(stored)), "%s: %s %s =%s", name, sheet, at, formula)
						compared[sheet]++
					}
				}
			}
			for _, sheet := range []string{"Load calculation", "Load letter to the utility", "Equipment", "Heat", "Heat cases", "Heat sources", "Hours"} {
				require.NotZero(t, compared[sheet], "%s has formulas", sheet)
			}
			if name == "warehouse" {
				require.NotZero(t, compared["Bill of materials"]*compared["Panel MDP"]*compared["Panel M1"])
			}
		}
	}
}

// TestFiguresAreThoseOfTheReport looks figures up in the workbook and compares
// them with the JSON.
func TestFiguresAreThoseOfTheReport(t *testing.T) {
	var d struct {
		Plan struct {
			Circuits []struct {
				Name     string  `json:"name"`
				Panel    string  `json:"panel"`
				Load     float64 `json:"load_amps"`
				Required float64 `json:"required_amps"`
			} `json:"circuits"`
		} `json:"plan"`
		Services []struct {
			Connected float64 `json:"connected_va"`
			Demand    float64 `json:"demand_va"`
		} `json:"services"`
		Day struct {
			Energy float64 `json:"energy_kwh_per_day"`
		} `json:"day"`
	}
	require.NoError(t, json.Unmarshal(report(t, site("warehouse"), "json"), &d))
	f, _ := opened(t, site("warehouse"))
	require.NotEmpty(t, d.Plan.Circuits)
	for _, c := range d.Plan.Circuits {
		at, r := row(t, f, "Circuits", c.Panel, c.Name)
		require.InDelta(t, c.Load, float(t, r[5]), 1e-9, c.Name)
		require.InDelta(t, c.Required, float(t, r[6]), 1e-9, c.Name)
		kind, err := f.GetCellType("Circuits", "F"+strconv.Itoa(at))
		require.NoError(t, err)
		require.Contains(t, []excelize.CellType{excelize.CellTypeUnset, excelize.CellTypeNumber}, kind, "a number, not words")
	}
	worked := func(sheet, column string, begins ...string) (x float64, shown string) {
		at, _ := row(t, f, sheet, begins...)
		raw, err := f.CalcCellValue(sheet, column+strconv.Itoa(at), excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		shown, err = f.GetCellValue(sheet, column+strconv.Itoa(at))
		require.NoError(t, err)
		return float(t, raw), shown
	}
	demand, shown := worked("Load calculation", "F", "Calculated load")
	require.InDelta(t, d.Services[0].Demand, demand, 0.5)
	require.Equal(t, "95,164", shown, "with a number format")
	connected, _ := worked("Panel MDP", "F", "", "Connected, all legs, VA")
	require.InDelta(t, d.Services[0].Connected, connected, 0.5)
	energy, _ := worked("Hours", "B", "Energy, kWh")
	require.InDelta(t, d.Day.Energy, energy, 1e-6)
}

// TestEveryRecordIsInTheWorkbook looks each record of the tables that are written as
// comma-separated values up among the rows of the workbook.
func TestEveryRecordIsInTheWorkbook(t *testing.T) {
	for _, name := range sites() {
		f, _ := opened(t, site(name))
		rows := map[string][][]string{}
		for _, sheet := range f.GetSheetList() {
			all, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			for _, r := range all {
				rows[without(r)] = append(rows[without(r)], r)
			}
		}
		dir := filepath.Join(t.TempDir(), "tables")
		report(t, site(name), "json", "--csv", dir)
		files, err := filepath.Glob(filepath.Join(dir, "*.csv"))
		require.NoError(t, err)
		require.Greater(t, len(files), 20)
		for _, file := range files {
			if filepath.Base(file) == "contents.csv" {
				continue
			}
			in, err := os.Open(file)
			require.NoError(t, err)
			records, err := csv.NewReader(in).ReadAll()
			require.NoError(t, err)
			require.NoError(t, in.Close())
			for _, r := range records {
				// Tables that are joined into one file have one more column in front, which says whose each record is.
				require.True(t, slices.ContainsFunc(rows[without(r)], alike(r)) || slices.ContainsFunc(rows[without(r[1:])], alike(r[1:])), "%s: %s: %q", name, filepath.Base(file), r)
			}
		}
	}
}

// without is a row without its figures and without the empty cells at its end.
func without(r []string) string {
	var words []string
	for _, s := range r {
		if _, err := strconv.ParseFloat(s, 64); err == nil {
			s = "#"
		}
		words = append(words, s)
	}
	return strings.TrimRight(strings.Join(words, "\t"), "\t")
}

// alike looks for a row whose figures are those of a record before they were rounded.
func alike(record []string) func(row []string) bool {
	return func(row []string) bool {
		for i, s := range record {
			want, err := strconv.ParseFloat(s, 64)
			if err != nil {
				continue
			}
			_, decimals, _ := strings.Cut(s, ".")
			got, err := strconv.ParseFloat(row[i], 64)
			if err != nil || math.Abs(got-want) > 0.50001*math.Pow10(-len(decimals)) {
				return false
			}
		}
		return true
	}
}

func sites() []string {
	return []string{"warehouse", "tent", "greenhouse", "building", "garage", "racks"}
}

func TestEverySheetIsSetUpForPaper(t *testing.T) {
	for units, paper := range map[string]xlsx.Paper{"us": xlsx.Letter, "metric": xlsx.A4} {
		f, _ := opened(t, site("warehouse"), "--units", units)
		require.Equal(t, "Cover", f.GetSheetList()[0])
		for _, sheet := range f.GetSheetList() {
			o, err := f.GetPageLayout(sheet)
			require.NoError(t, err)
			require.Equal(t, int(paper), *o.Size)
			require.Equal(t, 1, *o.FitToWidth)
			panes, err := f.GetPanes(sheet)
			require.NoError(t, err)
			require.True(t, panes.Freeze)
			require.Positive(t, panes.YSplit)
			width, err := f.GetColWidth(sheet, "A")
			require.NoError(t, err)
			require.Greater(t, width, 6.0)
		}
		titles := 0
		for _, n := range f.GetDefinedName() {
			if n.Name == "_xlnm.Print_Titles" {
				titles++
			}
		}
		require.Len(t, f.GetSheetList(), titles, "headings are repeated on every page")
	}
}

// hostile are names that try to be more than names.
func hostile() []string {
	return []string{`=cmd|' /C calc'!A0`, "+1", "@SUM(A1)", "-2", `[x]:*?/\'`, strings.Repeat("很长的名字", 13), "History", "LP&1 _x0041_ </t><b>", "𝛀" + strings.Repeat("𝛀", 40)}
}

const hostileSite = `
[site]
name = "=HYPERLINK(1)"
use = "commercial"
`

const hostileRoom = `
[panels.NAME]
system = "120/240 V 1ph"
main = "200 A"
spaces = 42
[rooms.NAME]
panel = NAME
size = "20 ft x 10 ft x 9 ft"
lights = "06:00-18:00"
run = "60 ft"
spacing = "4 ft"
[fixtures.NAME]
room = NAME
count = 6
power = "640 W"
power_factor = 0.98
voltage = "240 V"
wired = true
max_per_breaker = 8
`

// TestHostileNames: names cannot become formulas, sheets or markup.
func TestHostileNames(t *testing.T) {
	toml := hostileSite
	const turning = "turn\u202eing" // its direction would turn what follows
	for _, n := range append(hostile(), turning) {
		toml += strings.ReplaceAll(hostileRoom, "NAME", `"`+strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(n)+`"`)
	}
	file := filepath.Join(t.TempDir(), "site.toml")
	require.NoError(t, os.WriteFile(file, []byte(toml), 0o600))
	f, raw := opened(t, file)
	seen := map[string]bool{}
	for _, s := range f.GetSheetList() {
		require.False(t, seen[strings.ToLower(s)], "%q twice", s)
		seen[strings.ToLower(s)] = true
		require.LessOrEqual(t, len(utf16.Encode([]rune(s))), 31)
		require.NotRegexp(t, `[\[\]:*?/\\]|^'|'$`, s)
	}
	for _, n := range hostile() {
		_, r := row(t, f, "Panels", n)
		require.Equal(t, n, r[0], "as it is, and a string")
	}

	// Every formula in the file is one of ours.
	z, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	require.NoError(t, err)
	ours := regexp.MustCompile(`^[A-Z0-9:+*().,"]+$`)
	for _, part := range z.File {
		require.NotContains(t, part.Name, "external")
		in, err := part.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(in)
		require.NoError(t, err)
		require.False(t, bytes.Contains(text, []byte("\u202e")), part.Name)
		for _, m := range regexp.MustCompile(`<f>(.*?)</f>`).FindAllStringSubmatch(string(text), -1) {
			require.Regexp(t, ours, strings.ReplaceAll(m[1], "&#34;", `"`))
		}
	}
}

func TestTheSameReportGivesTheSameBytes(t *testing.T) {
	first := report(t, site("tent"), "xlsx")
	for range 3 {
		require.True(t, bytes.Equal(first, report(t, site("tent"), "xlsx")))
	}
}
