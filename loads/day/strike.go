package day

// strike leaves out of a node's options those that no better choice holds, until none
// goes, and returns a lower bound of every choice below. ok is false where there is none
// better.
func (t *tree) strike(f *frame) (bound int64, ok bool) {
	for {
		t.lighten(f)
		bound, ok = t.bound(f)
		if !ok {
			return 0, false
		}
		struck := false
		for i, a := range t.at {
			if a >= 0 {
				continue
			}
			kept := f.left[i][:0]
			for _, o := range f.left[i] {
				if t.allowed(i, o) && (!t.has || t.withOption(f, i, o) < t.best && t.weighed(f, i, o)) {
					kept = append(kept, o)
				} else {
					struck = true
				}
			}
			if f.left[i] = kept; len(kept) == 0 {
				return 0, false
			}
		}
		if !struck {
			return bound, true
		}
	}
}

// allowed reports whether an option may stand beside what is placed, and in the order of
// like rooms.
func (t *tree) allowed(i, o int) bool {
	if !t.fits(t.at, i, o) {
		return false
	}
	if b := t.before[i]; b >= 0 && t.at[b] > o {
		return false
	}
	for j, b := range t.before {
		if b == i && t.at[j] >= 0 && t.at[j] < o {
			return false
		}
	}
	return true
}

// lighten sets what each room not placed adds to each column at least.
func (t *tree) lighten(f *frame) {
	clear(f.all)
	for i, a := range t.at {
		if a >= 0 {
			continue
		}
		least := f.least[i]
		copy(least, t.rooms[i].options[f.left[i][0]].power)
		for _, o := range f.left[i][1:] {
			for c, x := range t.rooms[i].options[o].power {
				least[c] = min(least[c], x)
			}
		}
		for c, x := range least {
			f.all[c] += x
		}
	}
}

// bound returns a lower bound of all choices below a node:
//
//   - a column holds at least what is placed, and the least that each room left adds;
//   - the largest column is no less than any weighted mean, see weighing;
//   - energy costs what is placed, and the least of each room left.
//
// ok is false where that is no better than the best choice known.
func (t *tree) bound(f *frame) (bound int64, ok bool) {
	var low parts
	for c, x := range f.load {
		for s := range seasons {
			if t.season[c]&(1<<s) != 0 {
				low.demand[s] = max(low.demand[s], x+f.all[c])
			}
		}
	}
	whole := int64(0)
	for g := range t.weights {
		w := &t.weights[g]
		total := f.totals[g]
		for i, a := range t.at {
			if a < 0 {
				total += t.lightest(f, g, i)
			}
		}
		if w.season == wholeCost {
			whole = max(whole, w.bound(total))
		} else {
			low.demand[w.season] = max(low.demand[w.season], w.bound(total))
		}
	}
	year := yearly(f.energy)
	low.energy = f.energy
	for i, a := range t.at {
		if a >= 0 {
			continue
		}
		least, apart := t.cheapest(f, i)
		year += least
		for s := range seasons {
			low.energy[s] += apart[s]
		}
	}
	bound = max(whole, t.goal.floor(low, year))
	return bound, !t.has || bound < t.best
}

// lightest returns the least of a room's options left by a weighing.
func (t *tree) lightest(f *frame, g, i int) int64 {
	of := t.weights[g].of[i]
	least := of[f.left[i][0]]
	for _, o := range f.left[i][1:] {
		least = min(least, of[o])
	}
	return least
}

// cheapest returns the least energy cost of a room's options left, of a year and of a
// month of each season.
func (t *tree) cheapest(f *frame, i int) (year int64, months [seasons]int64) {
	for k, o := range f.left[i] {
		e := t.rooms[i].options[o].energy
		if k == 0 {
			year, months = yearly(e), e
			continue
		}
		year = min(year, yearly(e))
		for s := range seasons {
			months[s] = min(months[s], e[s])
		}
	}
	return year, months
}

// withOption returns a lower bound of all choices below a node in which a room takes an
// option, by columns and energy alone.
func (t *tree) withOption(f *frame, i, o int) int64 {
	opt := &t.rooms[i].options[o]
	var low parts
	for c, x := range f.load {
		x += f.all[c] - f.least[i][c] + opt.power[c]
		for s := range seasons {
			if t.season[c]&(1<<s) != 0 {
				low.demand[s] = max(low.demand[s], x)
			}
		}
	}
	low.energy = f.energy
	year := yearly(f.energy) + yearly(opt.energy)
	if t.goal.objective == ForCost {
		for j, a := range t.at {
			if a < 0 && j != i {
				least, months := t.cheapest(f, j)
				year += least
				for s := range seasons {
					low.energy[s] += months[s]
				}
			}
		}
	}
	for s := range seasons {
		low.energy[s] += opt.energy[s]
	}
	return t.goal.floor(low, year)
}

// weighed reports whether by every weighing a better choice may hold an option.
func (t *tree) weighed(f *frame, i, o int) bool {
	for g := range t.weights {
		w := &t.weights[g]
		if w.season != wholeCost && t.goal.objective == ForCost {
			continue // the demand of one season says too little of the cost
		}
		total := f.totals[g] + w.of[i][o]
		for j, a := range t.at {
			if a < 0 && j != i {
				total += t.lightest(f, g, j)
			}
		}
		if w.bound(total) >= t.best {
			return false
		}
	}
	return true
}
