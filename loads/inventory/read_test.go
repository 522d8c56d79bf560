package inventory

import (
	"bytes"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// testWords is a small vocabulary such as a code of practice brings.
func testWords() Vocabulary {
	return Vocabulary{
		Codes:       []string{"nec-2023", "nec-2020"},
		Sizes:       []string{"14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG", "1 AWG", "1/0 AWG", "250 kcmil"},
		Materials:   []string{"copper", "aluminum"},
		Insulations: []string{"TW", "THHN", "THWN-2", "XHHW-2"},
		Raceways:    []string{"EMT", "PVC", "RMC"},
		Receptacles: []string{"NEMA 5-15R", "NEMA 5-20R", "NEMA 6-20R", "NEMA L6-30R", "NEMA L7-20R"},
	}
}

func file(t testing.TB, path string) []byte {
	t.Helper()
	src, err := os.ReadFile(path)
	require.NoError(t, err)
	return src
}

// sound reads a file that must have no problem.
func sound(t testing.TB, name string, src []byte) *Inventory {
	t.Helper()
	inv, problems := Read(name, src, testWords())
	if len(problems) > 0 {
		var b strings.Builder
		require.NoError(t, Print(&b, name, src, problems, 100))
		require.Empty(t, b.String())
	}
	return inv
}

func mustWindows(t *testing.T, s string) clock.Windows {
	t.Helper()
	w, err := clock.Parse(s)
	require.NoError(t, err)
	return w
}

func TestSmallInventoryReadsToWhatItSays(t *testing.T) {
	inv := sound(t, "fernhill.toml", file(t, "testdata/fernhill.toml"))
	system, _ := SystemNamed("120/240 V 1ph")
	want := &Inventory{
		File:   "fernhill.toml",
		Site:   Site{Name: "Fernhill, bay 2", Use: Commercial, Code: units.Is("nec-2023")},
		Panels: []Panel{{Name: "LP1", System: system, Main: units.Is(100 * units.Ampere), Spaces: units.Is(24)}},
		Rooms: []Room{{
			Name: "flower", Panels: []string{"LP1"},
			Length: units.Is(24 * units.Foot), Width: units.Is(16 * units.Foot), Height: units.Is(10 * units.Foot),
			Lights: units.Is(mustWindows(t, "06:00-18:00")), Run: units.Is(60 * units.Foot),
		}},
		Items: []Item{
			{Table: Fixtures, Name: "bar-640", Room: "flower", Count: 12, Power: units.Is(640 * units.Watt),
				PowerFactor: units.Is(units.Ratio(0.98)), Voltage: units.Is(units.VoltageSet{Low: 100, High: 277})},
			{Table: Controllers, Name: "climate", Room: "flower", Count: 1, Power: units.Is(20 * units.Watt),
				Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}})},
			{Table: Fans, Name: "oscillating", Room: "flower", Count: 6, Power: units.Is(55 * units.Watt),
				Voltage: units.Is(units.VoltageSet{List: []units.Voltage{120}}), Hours: units.Is(clock.Always())},
		},
		places: inv.places,
	}
	assert.Equal(t, want, inv)
}

func item(t *testing.T, inv *Inventory, name string) Item {
	t.Helper()
	for _, i := range inv.Items {
		if i.Name == name {
			return i
		}
	}
	require.Fail(t, "no item "+name)
	return Item{}
}

func TestFullInventoryReadsToWhatItSays(t *testing.T) {
	inv := sound(t, "full.toml", file(t, "testdata/full.toml"))

	assert.InDelta(t, 3280.84, float64(inv.Site.Altitude.Or(0)), 0.005)
	assert.InDelta(t, -10, float64(inv.Site.Outdoor.Winter.Or(0)), 1e-9)

	mdp, lp1 := inv.Panels[1], inv.Panels[0]
	assert.Equal(t, "MDP", mdp.Name)
	assert.Equal(t, []units.Current{20, 30}, mdp.Breakers, "ascending, each once")
	assert.Equal(t, OtherLoad{PerLeg: units.Is(30 * units.Ampere)}, mdp.OtherLoad)
	assert.Equal(t, OtherLoad{Total: units.Is(12 * units.KVA)}, lp1.OtherLoad)
	assert.Equal(t, units.Is(MeasuredPeak{Total: units.Is(30 * units.KVA), Months: 6}), lp1.MeasuredPeak)
	assert.Equal(t, []int{2, 4, 6}, lp1.Feeder.Spaces)

	flower, veg := inv.Rooms[0], inv.Rooms[1]
	assert.Equal(t, []string{"LP1", "MDP"}, flower.Panels)
	assert.Equal(t, 12*clock.Hour, flower.Lights.Or(clock.Never()).Length())
	assert.InDelta(t, 0.1, float64(flower.Walls.U.Or(0)), 1e-12, "u is 1 / r")
	assert.InDelta(t, 0.5/5.678263, float64(flower.Floor.U.Or(0)), 1e-6)
	assert.Equal(t, clock.Minute(30), flower.Ramp.Or(0))
	assert.InDelta(t, 19.685, float64(veg.Length.Or(0)), 0.001)
	assert.False(t, veg.Height.Known(), "a size may leave the height out")

	bar := item(t, inv, "bar-640")
	assert.Equal(t, []MaxPerBreaker{{15, 5}, {20, 7}}, bar.MaxPerBreaker)
	assert.Equal(t, units.Is("NEMA L7-20R"), bar.Plug, "the vocabulary's spelling")
	assert.Equal(t, units.Is(false), bar.Wired)
	assert.Equal(t, units.Is(0.5*units.Milliampere), bar.Leakage)

	small := item(t, inv, "bar-320")
	assert.Equal(t, []CurrentAt{{120, 2.8}, {277, 1.2}}, small.Currents)
	assert.Equal(t, []units.Voltage{120, 277}, small.Voltage.Or(units.VoltageSet{}).List)
	assert.Equal(t, []MaxPerBreaker{{0, 9}}, small.MaxPerBreaker, "rating zero holds for every rating")

	fan := item(t, inv, "oscillating")
	assert.Equal(t, units.Is(false), fan.Wired, "plug = true")
	assert.False(t, fan.Plug.Known(), "which receptacle is not said")

	assert.True(t, item(t, inv, "exhaust").IsMotor)
	pump := item(t, inv, "pump")
	assert.Equal(t, units.Is(0.5*units.HP), pump.Motor, "power in hp is a motor's rating")
	assert.False(t, pump.Power.Known())
	assert.Equal(t, units.Is(35*units.VoltAmpere), item(t, inv, "north").Apparent)
	assert.Equal(t, 10*clock.Hour, item(t, inv, "dehumidifier").Hours.Or(clock.Never()).Length())
	assert.InDelta(t, 20000, item(t, inv, "burner").Burns.Or(0).BTUPerHour(), 1e-6)

	c := inv.Circuits[0]
	assert.Equal(t, []int{7, 9}, c.Spaces, "ascending")
	assert.Equal(t, units.Is(Conductor{Sets: 1, Size: "12 AWG", Material: units.Is("copper"), Insulation: units.Is("THHN")}), c.Conductor)
	assert.Equal(t, "2026-03-14", c.MeasuredAt)
	assert.Equal(t, units.Is("NEMA 6-20R"), c.Receptacle)
	assert.Equal(t, units.Is(Raceway{Trade: "1-1/4 in", Kind: "EMT"}), c.Raceway, "the vocabulary's spelling")
	assert.Equal(t, []string{"LP1-13"}, inv.Circuits[1].SharesNeutral, "one name may stand alone")
	assert.Equal(t, []string{"LP1-11"}, inv.Circuits[2].SharesNeutral)
	assert.Equal(t, units.Is(Raceway{Trade: "1/2 in", Kind: "EMT"}), inv.Circuits[2].Raceway)
	assert.Equal(t, units.Is(Link{Rating: 10, Most: units.Is(8), Units: units.Is(6)}), bar.Link)
	assert.Equal(t, units.Is(30*units.Ampere), item(t, inv, "north").Contactor)

	assert.Equal(t, []EnergyPrice{
		{Price: 0.22, Hours: units.Is(mustWindows(t, "14:00-20:00")), Season: units.Is("summer"), Days: units.Is("weekdays")},
		{Price: 0.11},
	}, inv.Tariff.Energy)
}

// TestNoFieldIsBeyondTheFile fails where a field of the inventory cannot be
// filled by any key: the full inventory sets each at least once.
func TestNoFieldIsBeyondTheFile(t *testing.T) {
	inv := sound(t, "full.toml", file(t, "testdata/full.toml"))
	best := sound(t, "best.toml", []byte("[site]\nname = \"A\"\nuse = \"dwelling\"\n[plan]\nvoltage = \"best\"\n"))
	inv.Plan.Best = best.Plan.Best
	set := map[string]bool{}
	all := map[string]bool{}
	fields(reflect.ValueOf(*inv), "", set, all)
	delete(all, ".Items.Listed") // names that alike items had in the file
	for name := range all {
		assert.True(t, set[name], "no key fills %s", name)
	}
	assert.Greater(t, len(all), 120, "the walk sees the fields")
}

// fields notes every field by name, and those that are set somewhere.
func fields(v reflect.Value, name string, set, all map[string]bool) {
	if get := v.MethodByName("Known"); get.IsValid() && v.NumField() == 3 {
		all[name] = true
		if get.Call(nil)[0].Bool() {
			set[name] = true
			inner := v.MethodByName("Get").Call(nil)[0]
			if inner.Kind() == reflect.Struct && strings.Contains(inner.Type().String(), "inventory.") {
				fields(inner, name, set, all)
			}
		}
		return
	}
	switch {
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				fields(v.Field(i), name+"."+f.Name, set, all)
			}
		}
	case v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Struct:
		for i := range v.Len() {
			fields(v.Index(i), name, set, all)
		}
	default:
		all[name] = true
		set[name] = set[name] || !v.IsZero()
	}
}

func TestFullInventoryUsesEveryKeyOfTheSchema(t *testing.T) {
	inv := sound(t, "full.toml", file(t, "testdata/full.toml"))
	used := map[string]bool{}
	for list := inv.places.root.kids; len(list) > 0; list = list[1:] {
		list = append(list, list[0].kids...)
		parts := strings.Split(list[0].path(), ".")
		if table, _ := tableNamed(Schema(), parts[0]); table.Named && len(parts) > 1 {
			parts = append(parts[:1], parts[2:]...)
		}
		for i, p := range parts {
			parts[i], _, _ = strings.Cut(p, "[")
		}
		used[strings.Join(parts, ".")] = true
	}
	var walk func(above string, keys []Key)
	walk = func(above string, keys []Key) {
		for _, k := range keys {
			item := slices.Contains(itemTables(), strings.Split(above, ".")[0])
			path := above + "." + k.Name
			if item && !used[path] { // a key shared by the tables of items is used in one of them
				for _, t := range itemTables() {
					used[path] = used[path] || used[t+strings.TrimPrefix(path, strings.Split(path, ".")[0])]
				}
			}
			assert.True(t, used[path], "the full inventory does not use %s", path)
			walk(path, k.Keys)
		}
	}
	for _, table := range Schema() {
		walk(table.Name, table.Keys)
	}
}

// blocks cuts a file into its tables.
func blocks(src []byte) [][]byte {
	var out [][]byte
	for _, part := range bytes.Split(append([]byte("\n"), src...), []byte("\n[")) {
		out = append(out, append([]byte("\n["), part...))
	}
	out[0] = bytes.TrimPrefix(out[0], []byte("\n["))
	return out
}

func TestOrderOfTablesDoesNotChangeTheResult(t *testing.T) {
	for _, name := range []string{"testdata/fernhill.toml", "testdata/full.toml"} {
		src := file(t, name)
		want := sound(t, "x.toml", src)
		parts := blocks(src)
		var back []byte
		for i := len(parts) - 1; i > 0; i-- {
			back = append(back, parts[i]...)
			back = append(back, '\n')
		}
		got := sound(t, "x.toml", back)
		got.places, want.places = nil, nil
		assert.Equal(t, want, got, name)
	}
}

func TestSiteWithNothingElseIsSound(t *testing.T) {
	sound(t, "x.toml", []byte("[site]\nname = \"A\"\nuse = \"dwelling\"\n"))
}

func TestByteOrderMarkAndWindowsLineEndsAreFine(t *testing.T) {
	src := bytes.ReplaceAll(file(t, "testdata/fernhill.toml"), []byte("\n"), []byte("\r\n"))
	inv := sound(t, "x.toml", append([]byte("\ufeff"), src...))
	assert.Equal(t, 21, inv.Line("fixtures.bar-640.power_factor"))
}
