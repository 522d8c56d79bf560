package handover

// cautions are what a person who builds from this has to know.
func (p *page) cautions() []Block {
	out := []Block{Paragraph{Class: "says", Spans: spans(text(p.d.Caution))}}
	l := bullets([]string{
		"This is arithmetic on what the file says. It cannot see a conductor, a panel or a joint.",
		"Rules differ by place and by edition. A licensed electrician and the local inspector decide.",
		"Where a check says that it cannot be told, treat it as not met until someone qualified has measured it.",
		"Never raise a breaker to stop it from tripping: the conductor behind it sets the limit.",
		"Work on panels and receptacles only with the supply off and proved off.",
		"Continuous load warms terminals for hours every day. Have joints and breakers looked at, by torque and infrared, after the first month of full load.",
		"Extension cords and power strips are not wiring: they do not feed lights, heaters, dehumidifiers or pumps day after day, and are not chained. Standing water, reservoirs and hoses belong away from receptacles; never defeat a ground pin.",
		"Old aluminum branch wiring, wiring without a ground, and wiring that nobody can identify are for an electrician to inspect before load is added.",
		"A neutral that is lost, on a shared-neutral circuit or in a panel, puts up to the full voltage between legs across equipment for one leg.",
		"A generator feeds a building only through a transfer switch or an interlock made for it.",
		"A dimmed fixture goes to full power when its control wire opens; circuits here are sized for full power and must stay so.",
		"A fixture bought in place of the one listed changes current, inrush and leakage. Plan again before it is installed.",
	})
	if p.burns() {
		l.Items = append(l.Items, Item{Spans: spans(text("Burning fuel for carbon dioxide takes oxygen and can make carbon monoxide: alarms and purge are needed where people work."))})
	}
	return append(out, l)
}

// burns reports whether something in a room burns fuel.
func (p *page) burns() bool {
	for _, r := range p.d.Heat.Rooms {
		for _, l := range r.Loads {
			if l.BurnsBTUH != nil {
				return true
			}
		}
	}
	return false
}

// signed is the table of revisions and the block that the licensed professional
// signs.
func (p *page) signed() []Block {
	s := Signature{Date: p.d.Date}
	for i := range 5 {
		s.Revisions = append(s.Revisions, i)
	}
	return []Block{s}
}
