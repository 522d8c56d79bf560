package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strconv"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/html"
	"branchwork/cmd/internal/render/page"
	"branchwork/loads/inventory"
)

// wished answers what-if questions about one version of a file.
type wished struct {
	x      siteText
	o      *viewOptions
	s      *streams
	about  html.Live
	before document.Results // the plan that the page shows
}

// choices lists what can be asked.
func (w *wished) choices() {
	inv := w.x.inv
	w.about.Built, w.about.Names = len(inv.Circuits) > 0, circuitNames(inv)
	for _, i := range items(inv) {
		if i.Table != inventory.Controllers {
			w.about.Items = append(w.about.Items, html.LiveItem{Name: i.Name, Room: i.Room, Count: i.Count})
		}
	}
	for _, r := range roomNames(inv) {
		if len(fixturesOf(inv, r)) > 0 {
			w.about.Rooms = append(w.about.Rooms, r)
		}
	}
}

func fixturesOf(inv *inventory.Inventory, room string) []inventory.Item {
	var out []inventory.Item
	for _, i := range items(inv) {
		if i.Table == inventory.Fixtures && i.Room == room {
			out = append(out, i)
		}
	}
	return out
}

// wish is one question: units more and fewer, rooms dimmed.
type wish struct {
	more, fewer []unitsOf
	dim         []dimmed
}

type unitsOf struct {
	item  string
	count int
	on    string // this circuit only; empty: any
}

type dimmed struct {
	room    string
	percent int
}

// mostChanges is how many changes one question may hold.
const mostChanges = 50

// wishOf reads the fields of the strip: rows of do, by, item, on, and rows of room,
// level. A row that changes nothing is left out.
func wishOf(q url.Values) (wish, error) {
	var w wish
	items, rooms := q["item"], q["room"]
	if len(items) > mostChanges || len(rooms) > mostChanges {
		return w, fmt.Errorf("more than %d changes at once", mostChanges)
	}
	at := func(key string, i int) string {
		if list := q[key]; i < len(list) {
			return list[i]
		}
		return ""
	}
	for i, item := range items {
		by, err := wholeNumber(at("by", i), "a number of units")
		if err != nil {
			return w, err
		}
		u := unitsOf{item, by, at("on", i)}
		switch do := at("do", i); {
		case by == 0:
		case do == "add":
			w.more = append(w.more, u)
		case do == "remove":
			w.fewer = append(w.fewer, u)
		default:
			return w, fmt.Errorf("%q is no change: add or remove", do)
		}
	}
	for i, room := range rooms {
		if room == "" {
			continue
		}
		percent, err := wholeNumber(at("level", i), "a level in percent")
		if err != nil {
			return w, err
		}
		if percent > 100 {
			return w, fmt.Errorf("%d %% is no level: 0 to 100", percent)
		}
		w.dim = append(w.dim, dimmed{room, percent})
	}
	if len(w.more)+len(w.fewer)+len(w.dim) == 0 {
		return w, errors.New("nothing is changed yet: give a number of units, or choose a room to dim")
	}
	return w, nil
}

func wholeNumber(s, what string) (int, error) {
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 || len(s) > 7 {
		return 0, fmt.Errorf("%q is not %s: a whole number without a sign", s, what)
	}
	return n, nil
}

// answer answers a query of the strip: as a part of the page that asks, or as a page
// of its own for a browser without scripts.
func (w *wished) answer(ctx context.Context, query string) []byte {
	q, err := url.ParseQuery(query)
	a := html.Answer{Class: "cannot"}
	var d document.WhatIf
	if err == nil {
		d, err = w.asked(ctx, q)
	}
	switch {
	case ctx.Err() != nil:
		return nil
	case err != nil:
		a.Says, a.Page = w.refusal(err)
	default:
		a = w.answered(d)
	}
	var b bytes.Buffer
	if q.Get("part") == "answer" {
		err = a.Render(&b)
	} else {
		err = a.RenderPage(&b, w.about)
	}
	if err != nil {
		panic(err) // a template of ours
	}
	return b.Bytes()
}

func (w *wished) asked(ctx context.Context, q url.Values) (document.WhatIf, error) {
	wish, err := wishOf(q)
	if err != nil {
		return document.WhatIf{}, err
	}
	return wish.whatIf(ctx, w.x, w.before)
}

// refusal is an error as an answer; a fault of ours is said on the terminal too.
func (w *wished) refusal(err error) (string, page.Page) {
	if lines, status := spoken(err); status == statusFault {
		fmt.Fprint(w.s.err, lines)
	}
	var h hinted
	if errors.As(err, &h) {
		return h.Error(), page.Page{Blocks: []page.Block{page.Text{Text: h.hint}}}
	}
	var f fault
	if errors.As(err, &f) {
		return "our own fault, not a mistake in the file: " + f.says, page.Page{Blocks: []page.Block{page.List{Items: f.complaints}}}
	}
	return err.Error(), page.Page{}
}

func (w *wished) answered(d document.WhatIf) html.Answer {
	u := page.System{Metric: w.o.units == "metric"}
	a := html.Answer{Asked: d.Asked, Class: "violation", Says: d.Says, Page: page.WhatIf(d, u)}
	switch {
	case d.Fits && d.Warns:
		a.Class = "warning"
	case d.Fits:
		a.Class = "none"
	}
	for _, x := range d.Adds {
		title := fmt.Sprintf("All that branchwork add says to %d x %s", x.Count, x.Item)
		a.Folds = append(a.Folds, html.Fold{Title: title, Open: !x.Fits, Page: page.Add(x, u)})
	}
	if len(d.Change.Changes) > 0 {
		a.Folds = append(a.Folds, html.Fold{Title: "Change order: " + d.Change.Says, Open: len(d.Adds) == 0, Page: page.Diff(d.Change, u)})
	}
	return a
}

// whatIf works a question out: rooms are dimmed and units removed in the text of the
// file, then each adding is asked of what is left, as add asks it, and the site is
// planned again with all of it. The text lives in memory only.
func (w wish) whatIf(ctx context.Context, x siteText, before document.Results) (document.WhatIf, error) {
	of := document.WhatIfOf{Before: before, Built: len(x.inv.Circuits) > 0, Dimmed: len(w.dim) > 0}
	after, err := w.lessened(x, before, &of)
	if err != nil {
		return document.WhatIf{}, err
	}
	for i, m := range w.more {
		if ctx.Err() != nil {
			return document.WhatIf{}, ctx.Err()
		}
		of.Asked = append(of.Asked, fmt.Sprintf("%d x %s more%s", m.count, m.item, onCircuit(m.on)))
		if after, err = w.added(after, m, &of); err != nil {
			return document.WhatIf{}, err
		}
		if n := len(of.Adds); n > 0 && !of.Adds[n-1].Fits {
			for _, m := range w.more[i+1:] {
				of.NotAsked = append(of.NotAsked, fmt.Sprintf("%d x %s", m.count, m.item))
				if after, err = raised(after, m); err != nil {
					return document.WhatIf{}, err
				}
			}
			break
		}
	}
	if ctx.Err() != nil {
		return document.WhatIf{}, ctx.Err()
	}
	if after, err = after.withoutSpares(&of); err != nil {
		return document.WhatIf{}, err
	}
	if of.After, err = silent().work(after.inv, after.p, false); err != nil {
		return document.WhatIf{}, err
	}
	return document.NewWhatIf(of), nil
}

func onCircuit(name string) string {
	if name == "" {
		return ""
	}
	return " on circuit " + name
}

// added asks for units and puts them into the text: on the circuits that take them,
// or, where the answer is no or nothing is built, on none yet.
func (w wish) added(x siteText, m unitsOf, of *document.WhatIfOf) (siteText, error) {
	if !of.Built {
		return raised(x, m)
	}
	q, err := moreOf(x, []string{m.item}, m.count, m.on)
	if err != nil {
		return x, err
	}
	d, changed, err := q.answer(silent(), x)
	if err != nil {
		return x, err
	}
	of.Adds = append(of.Adds, d)
	if !d.Fits {
		return raised(x, m)
	}
	return x.with(changed)
}

// raised raises the count of an item, no circuit feeding the units.
func raised(x siteText, m unitsOf) (siteText, error) {
	var q question
	q.Count = m.count
	edits, err := countUp(x, []string{m.item}, &q)
	if err != nil {
		return x, err
	}
	return x.changed(edits)
}

// changed is a text with keys set as a user asks for it: what is wrong with it then is
// the user's to know.
func (x siteText) changed(edits []inventory.Edit) (siteText, error) {
	src, err := inventory.Rewrite(x.src, edits)
	if err != nil {
		return x, fmt.Errorf("cannot change %q: %w", x.inv.File, err)
	}
	return x.with(src)
}

// with is another text in the place of this one.
func (x siteText) with(src []byte) (siteText, error) {
	inv, problems := inventory.Read(x.inv.File, src, x.words())
	if len(problems) > 0 {
		return x, hint(fmt.Errorf("%s: %s", problems[0].Path, problems[0].Says), "%s", problems[0].Remedy)
	}
	x.src, x.inv = src, inv
	return x, nil
}

// withoutSpares takes out the circuits that feed nothing any more.
func (x siteText) withoutSpares(of *document.WhatIfOf) (siteText, error) {
	var edits []inventory.Edit
	for _, c := range x.inv.Circuits {
		if len(c.Feeds) == 0 {
			edits = append(edits, inventory.Edit{Path: []string{"circuits", c.Name}})
			of.Notes = append(of.Notes, "circuit "+c.Name+" feeds nothing any more and counts as freed; its breaker may stay as a spare")
		}
	}
	if len(edits) == 0 {
		return x, nil
	}
	return x.changed(edits)
}

// lessened dims rooms and takes units out.
func (w wish) lessened(x siteText, before document.Results, of *document.WhatIfOf) (siteText, error) {
	x.spare = true
	var edits []inventory.Edit
	for _, d := range w.dim {
		if !slices.Contains(roomNames(x.inv), d.room) {
			return x, unknownName("room", d.room, roomNames(x.inv))
		}
		fixtures := fixturesOf(x.inv, d.room)
		if len(fixtures) == 0 {
			return x, fmt.Errorf("room %q has no fixtures to dim", d.room)
		}
		for _, i := range fixtures {
			edits = append(edits, inventory.Edit{Path: []string{i.Table, i.Name, "level"}, Value: strconv.FormatFloat(float64(d.percent)/100, 'f', -1, 64)})
		}
		of.Asked = append(of.Asked, fmt.Sprintf("fixtures of room %s at %d %%", d.room, d.percent))
	}
	var err error
	if len(edits) > 0 {
		if x, err = x.changed(edits); err != nil {
			return x, err
		}
	}
	for _, f := range w.fewer {
		var taken taking
		if taken, err = takeOut(x, before.Plan, f); err != nil {
			return x, err
		}
		if x, err = x.changed(taken.edits); err != nil {
			return x, err
		}
		of.Asked = append(of.Asked, fmt.Sprintf("%d x %s fewer%s", f.count, f.item, taken.from))
		of.Notes = append(of.Notes, taken.notes...)
	}
	return x, nil
}
