package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"branchwork/cmd/internal/document"
)

// shownBy returns a table's rows as a reader sees them, by heading.
func shownBy(t Table) []map[string]string {
	var out []map[string]string
	for _, row := range t.Rows {
		m := map[string]string{}
		for i, c := range t.Columns {
			m[c.Head()] = row[i].Shown()
		}
		out = append(out, m)
	}
	return out
}

// Water that nobody gave is no dry room: what hangs on it is unknown.
func TestUnknownWaterIsNotShownAsNone(t *testing.T) {
	one := known(1)
	gain := document.HeatCase{SensibleBTUH: 17_463, TotalBTUH: 17_463}
	r := document.HeatRoom{RoomHeat: document.RoomHeat{Cases: []document.DesignCase{
		{Name: "largest total", HeatCase: gain, Ratio: nil, Tons: 1.46}, {Name: "largest latent", HeatCase: gain, Hour: 8}}}}
	rows := shownBy(heatCasesTable(r, System{})[0].(Table))
	for _, k := range []string{"latent BTU/h", "SHR"} {
		assert.Equal(t, Unknown, rows[0][k], k)
	}
	assert.Equal(t, "17,463", rows[0]["total BTU/h"])
	for _, k := range []string{"sensible BTU/h", "latent BTU/h", "total BTU/h", "SHR", "tons", "total heat kW", "from", "day"} {
		assert.Equal(t, Unknown, rows[1][k], k)
	}
	r.Cases = []document.DesignCase{{Name: "largest total", HeatCase: gain, Ratio: one, LatentKnown: true}, {Name: "least sensible", HeatCase: document.HeatCase{SensibleBTUH: -1866, TotalBTUH: -1866}, LatentKnown: true}}
	rows = shownBy(heatCasesTable(r, System{})[0].(Table))
	assert.Equal(t, "0", rows[0]["latent BTU/h"])
	assert.Equal(t, "-1,866", rows[1]["sensible BTU/h"])
	for _, k := range []string{"total BTU/h", "SHR", "tons", "total heat kW"} {
		assert.Equal(t, none, rows[1][k], "heating has no total")
	}
}

// A least value says so wherever it is read first; a program gets the number.
func TestPeaksThatLackAPartSaySo(t *testing.T) {
	x := document.RoomHeat{Room: "bloom", PeakTotalBTUH: 17_300, AtLeast: true, PartNotKnown: true}
	blocks := heatLines([]document.RoomHeat{x}, System{})
	assert.Equal(t, "at least 17,300", shownBy(blocks[1].(Table))[0]["peak BTU/h"])
	assert.Equal(t, List{[]string{"bloom: a part is not known"}}, blocks[2])
	x.Cases = []document.DesignCase{{}}
	rooms := roomTable(document.Heat{Rooms: []document.HeatRoom{{RoomHeat: x}}}, System{})
	assert.Equal(t, "at least 17,300", shownBy(rooms)[0]["peak BTU/h"])
	c := atLeast(number(17_300, 0), true)
	assert.Equal(t, "17300", c.Data())
	assert.True(t, c.IsNumber())
	assert.Contains(t, heatOfDay(document.Day{Season: "mean", HeatLeast: true}), "not for sizing; heat is a least value")
	assert.Equal(t, "heat of the summer design day", heatOfDay(document.Day{Season: "summer"}))
}

// The rate of the wetter period is what dehumidifiers are looked up by, not the day's sum.
func TestOverviewShowsTheLargestRateOfWater(t *testing.T) {
	r := document.HeatRoom{RoomHeat: document.RoomHeat{Cases: []document.DesignCase{{}}, AirflowCFM: known(694)},
		Water: &document.HeatWater{PerDay: 635.2, LightsOn: 1017.8, LightsOff: 252.6}, Ventilation: document.HeatVentilation{Hardly: true}}
	row := shownBy(roomTable(document.Heat{Rooms: []document.HeatRoom{r}}, System{}))[0]
	assert.Equal(t, "635", row["water a day pint"])
	assert.Equal(t, "1,018", row["largest rate pint/day"])
	assert.Equal(t, "hardly practical", row["ventilation alone CFM"])
}

func TestDimmedLightsAreMarked(t *testing.T) {
	r := document.HeatRoom{RoomHeat: document.RoomHeat{PeakUndimmedBTUH: known(126_701)}, Loads: []document.HeatLoad{{Item: "bar", Kind: "light", Level: known(90)}}}
	assert.Equal(t, "light, dimmed to 90 %", heatLoadsTable(r).Rows[0][2].Shown())
	assert.Equal(t, "126,701 BTU/h, 10.56 tons; in all other figures lights count as dimmed", heatPeakFields(r, System{})[1].Value)
}
