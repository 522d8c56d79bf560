package document

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/codes"
)

// Question is something that has to be found out before the plan can be relied
// on.
type Question struct {
	Place
	Ask     string   `json:"ask"`
	Because []string `json:"because" jsonschema_description:"rules that cannot be told until then, or what hangs on it"`
}

// Alike is what was assumed alike of several things.
type Alike struct {
	Key      string   `json:"key"`
	Subjects []string `json:"subjects" jsonschema_description:"key paths"`
	Value    string   `json:"value"`
	Why      string   `json:"why"`
	Source   string   `json:"source"`
}

// unknowns lists what is missing, each fact of a thing once with all the rules
// that wait for it.
func unknowns(d Report) []Question {
	out := []Question{}
	ask := func(p Place, what, because string) {
		for i := range out {
			if out[i].Place == p && out[i].Ask == what {
				if !slices.Contains(out[i].Because, because) {
					out[i].Because = append(out[i].Because, because)
				}
				return
			}
		}
		out = append(out, Question{Place: p, Ask: what, Because: []string{because}})
	}
	for i, f := range d.Plan.Findings {
		for _, m := range f.Missing {
			if m == string(codes.Places) { // asked by name below
				continue
			}
			ask(d.About[i], strings.TrimSpace(m), f.Title)
		}
	}
	open := map[string]bool{}
	for _, c := range d.Plan.Circuits {
		open[c.Name] = c.Protection.Open != ""
	}
	var placeless []string
	for _, e := range d.Equipment {
		if !e.Wired && e.Location == nil && slices.ContainsFunc(e.Circuits, func(c string) bool { return open[c] }) && !slices.Contains(placeless, e.Item) {
			placeless = append(placeless, e.Item)
		}
	}
	if len(placeless) > 0 {
		ask(Place{"site", d.Plan.Site}, "the location, dry, damp or wet, of "+strings.Join(placeless, ", "), "ground-fault protection of their receptacles")
	}
	for _, p := range d.Plan.Panels {
		if f := p.Feeder; f != nil && f.Transformer != nil {
			ask(Place{"panel", p.Name}, "the secondary of its transformer: "+f.Transformer.Secondary, "what feeds the panel's main")
		}
	}
	for _, u := range d.Plan.Unfed {
		ask(Place{"item", u.Item}, fmt.Sprintf("%d of %s have no circuit: %s", u.Count, u.Item, u.Reason), u.Needs)
	}
	for _, r := range d.Heat.Rooms {
		for _, m := range r.Missing {
			ask(Place{"room", r.Room}, m, "the heat of the room is a least value until then")
		}
	}
	return out
}

// alike joins assumptions that say the same of several things.
func alike(all []Assumption) []Alike {
	out := []Alike{}
	for _, a := range all {
		i := strings.LastIndex(a.Subject, ".")
		g := Alike{Key: a.Subject[i+1:], Value: a.Value, Why: a.Why, Source: a.Source}
		subject := a.Subject[:max(i, 0)]
		k := slices.IndexFunc(out, func(x Alike) bool {
			return x.Key == g.Key && x.Value == g.Value && x.Why == g.Why && x.Source == g.Source
		})
		if k < 0 {
			out = append(out, g)
			k = len(out) - 1
		}
		out[k].Subjects = append(out[k].Subjects, subject)
	}
	return out
}
