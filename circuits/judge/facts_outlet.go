package judge

import (
	"slices"
	"sort"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads/units"
)

// outlets gives the receptacle and the protection of a circuit's outlets.
func (j *judgment) outlets(c *circuits.Circuit, f *codes.Facts) {
	switch r, ok := j.p.ReceptacleNamed(c.Receptacle); {
	case c.Receptacle == "":
		f.Miss(codes.ReceptacleKind, "its receptacle is not known", "")
	case !ok:
		f.Miss(codes.ReceptacleKind, "the configuration "+c.Receptacle+" is not in the book", "")
	default:
		codes.Put(f, codes.ReceptacleKind, r)
	}
	codes.Put(f, codes.Protected, c.Protection)
	codes.Put(f, codes.WetPlace, j.wetPlace(c))
	if open := c.Protection.Open; open != "" {
		f.Miss(codes.Places, j.placeless(c.Panel)+": "+open, "panels."+c.Panel)
	}
	there, known := c.GFCI.Get()
	why := "it is not known whether a ground-fault interrupter (GFCI) protects it"
	if known {
		codes.Put(f, codes.GroundFault, there)
	} else {
		f.Miss(codes.GroundFault, why, "")
	}
	if known || c.Protection.Needed {
		codes.Put(f, codes.Guarded, there || c.Protection.Needed)
	} else {
		f.Miss(codes.Guarded, why, "")
	}
}

// wetPlace is the wettest place that the file states of what is plugged in on a
// circuit; empty where it states none that is damp or wet.
func (j *judgment) wetPlace(c *circuits.Circuit) string {
	wettest := ""
	for _, cl := range c.Loads {
		l, _ := j.set.Named(cl.Item)
		switch place := l.Item.Location.Or(""); {
		case !l.Corded:
		case place == "wet", place == "damp" && wettest == "":
			wettest = place
		}
	}
	return wettest
}

// placeless names what is plugged in on a panel's circuits and stands where the
// file does not say, wherever protection hangs on that: what all of them lack is
// one finding of the panel.
func (j *judgment) placeless(panel string) string {
	if says, ok := j.nowhere[panel]; ok {
		return says
	}
	var names []string
	for _, c := range j.plan.Circuits {
		if c.Panel != panel || c.Protection.Open == "" {
			continue
		}
		for _, cl := range c.Loads {
			if l, _ := j.set.Named(cl.Item); l.Corded && !l.Item.Location.Known() && !slices.Contains(names, cl.Item) {
				names = append(names, cl.Item)
			}
		}
	}
	sort.Slice(names, func(a, b int) bool { return units.NaturalLess(names[a], names[b]) })
	j.nowhere[panel] = some(names)
	return j.nowhere[panel]
}
