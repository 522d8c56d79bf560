package document

import (
	"branchwork/circuits"
	"branchwork/loads/inventory"
)

// Floor is how the units of a fixture type stand in their room: in rows along its
// longer side, numbered row by row, there and back, so that neighbours by number
// are neighbours in the room. It is the arrangement that the lengths of the home
// runs rest on. Where size or spacing is not known the units are only strung out
// in their order.
type Floor struct {
	Room        string      `json:"room"`
	Item        string      `json:"item"`
	Count       int         `json:"count"`
	Placed      bool        `json:"placed" jsonschema_description:"false: schematic, because of why"`
	Why         string      `json:"why,omitempty"`
	LongFeet    *float64    `json:"long_ft" jsonschema:"nullable" jsonschema_description:"the room's longer side, along the rows"`
	WideFeet    *float64    `json:"wide_ft" jsonschema:"nullable"`
	Rows        int         `json:"rows"`
	PerRow      int         `json:"per_row"`
	SpacingFeet *float64    `json:"spacing_ft" jsonschema:"nullable" jsonschema_description:"along a row"`
	PitchFeet   *float64    `json:"pitch_ft" jsonschema:"nullable" jsonschema_description:"from row to row"`
	Units       []FloorUnit `json:"units"`
	Others      []FloorLoad `json:"others" jsonschema_description:"other loads of the room, whose place is not given"`
}

// FloorUnit is where one unit stands, its middle measured from a corner.
type FloorUnit struct {
	Number     int      `json:"number"`
	Row        int      `json:"row" jsonschema_description:"from 1"`
	Place      int      `json:"place" jsonschema_description:"along the row, from 1"`
	AlongFeet  *float64 `json:"along_ft" jsonschema:"nullable"`
	AcrossFeet *float64 `json:"across_ft" jsonschema:"nullable"`
	Circuit    string   `json:"circuit,omitempty" jsonschema_description:"absent where none feeds it"`
}

// FloorLoad is units of another item of the room on one circuit.
type FloorLoad struct {
	Item    string `json:"item"`
	Count   int    `json:"count"`
	Circuit string `json:"circuit"`
}

// schematicRow is how many units a row takes that is not to scale.
const schematicRow = 12

func floors(r Results) []Floor {
	out := []Floor{}
	for _, x := range r.Inventory.Rooms {
		first := true
		for _, l := range r.Set.Loads {
			if l.Room != x.Name || l.Item.Table != inventory.Fixtures {
				continue
			}
			f := floor(x, l.Name, l.Count)
			f.feed(r)
			if first {
				f.Others, first = others(r, x.Name), false
			}
			out = append(out, f)
		}
	}
	return out
}

func floor(x inventory.Room, item string, count int) Floor {
	f := Floor{Room: x.Name, Item: item, Count: count, PerRow: schematicRow, Units: []FloorUnit{}, Others: []FloorLoad{}}
	g, placed := circuits.GridOf(x, count)
	switch {
	case placed:
		f.Placed, f.PerRow = true, g.PerRow
		f.LongFeet, f.WideFeet, f.SpacingFeet, f.PitchFeet = number(g.Long), number(g.Wide), number(g.Spacing), number(g.Pitch)
	case !x.Length.Known() || !x.Width.Known():
		f.Why = "the size of the room is not given"
	default:
		f.Why = "the spacing of the outlets is not given"
	}
	f.Rows = (count + f.PerRow - 1) / f.PerRow
	for n := range count {
		f.Units = append(f.Units, f.unit(n))
	}
	return f
}

// unit places unit n, from 0: every other row is walked back.
func (f Floor) unit(n int) FloorUnit {
	row, at := circuits.Place(n, f.PerRow)
	u := FloorUnit{Number: n + 1, Row: row + 1, Place: at + 1}
	if f.Placed {
		margin := (*f.LongFeet - float64(f.PerRow-1)**f.SpacingFeet) / 2
		u.AlongFeet = number(margin + float64(at)**f.SpacingFeet)
		u.AcrossFeet = number((float64(row) + 0.5) * *f.PitchFeet)
	}
	return u
}

// feed tells which circuit each unit is on.
func (f *Floor) feed(r Results) {
	for _, c := range r.Plan.Circuits {
		for _, l := range c.Loads {
			if l.Item != f.Item || l.First == 0 {
				continue
			}
			for i := range l.Count {
				if n := l.Unit(i); n <= len(f.Units) {
					f.Units[n-1].Circuit = c.Name
				}
			}
		}
	}
}

// others lists the loads of the room that are not drawn.
func others(r Results, room string) []FloorLoad {
	out := []FloorLoad{}
	for _, c := range r.Plan.Circuits {
		for _, l := range c.Loads {
			if item, ok := r.Set.Named(l.Item); ok && l.Room == room && item.Item.Table != inventory.Fixtures {
				out = append(out, FloorLoad{l.Item, l.Count, c.Name})
			}
		}
	}
	return out
}
