package circuits

// Drawn reports whether the current of a load is known.
func (l Load) Drawn() bool { return l.Draw.Amps > 0 }

// Undrawn returns the first load of a circuit whose current is not known; ok is
// false where all are. What is worked out of such a circuit lacks it.
func (c *Circuit) Undrawn() (l Load, ok bool) {
	for _, l := range c.Loads {
		if !l.Drawn() {
			return l, true
		}
	}
	return Load{}, false
}

// UndrawnBelow returns the first circuit on or below a panel with a load whose
// current is not known and that no measured peak of the panel holds, nil where
// there is none.
func (p *Plan) UndrawnBelow(x *Panel) *Circuit {
	for i := range p.Circuits {
		c := &p.Circuits[i]
		measured := x.MeasuredPeak.Known() && c.Existing && !c.Changed
		if measured || !p.Under(c.Panel, x.Name) {
			continue
		}
		if _, lacks := c.Undrawn(); lacks {
			return c
		}
	}
	return nil
}

// Under reports whether a panel is another one or is fed through it.
func (p *Plan) Under(name, top string) bool {
	for range len(p.Panels) + 1 {
		if name == top {
			return true
		}
		x := p.panel(name)
		if x == nil || x.Feeder == nil {
			return false
		}
		name = x.Feeder.From
	}
	return false
}

// panel returns the panel of that name, nil where there is none.
func (p *Plan) panel(name string) *Panel {
	for i := range p.Panels {
		if p.Panels[i].Name == name {
			return &p.Panels[i]
		}
	}
	return nil
}
