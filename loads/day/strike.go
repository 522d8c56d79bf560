package day

// strike leaves out of a node's options those that no better choice holds, until none
// goes, and returns a lower bound of every choice below. ok is false where there is none
// better.
func (t *tree) strike(f *frame) (bound int64, ok bool) {
	for {
		t.lighten(f)
		bound = t.bound(f)
		if t.has && bound >= t.best {
			return 0, false
		}
		struck := false
		for i, a := range t.at {
			if a >= 0 {
				continue
			}
			kept := f.left[i][:0]
			for _, o := range f.left[i] {
				t.work += len(t.base) + len(t.weights)
				if t.allowed(i, o) && (!t.has || t.weighed(f, i, o) && t.withOption(f, i, o) < t.best) {
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

// least is the least that the options left of a room add, each part by itself.
type least struct {
	power   []int64 // by column
	weighed []int64 // by weighing
	year    int64
	energy  [seasons]int64
}

func (t *tree) newLeast() least {
	return least{power: make([]int64, len(t.base)), weighed: make([]int64, len(t.weights))}
}

// lighten sets what each room not placed adds at least, and their sum.
func (t *tree) lighten(f *frame) {
	sum := &f.sum
	clear(sum.power)
	clear(sum.weighed)
	sum.year, sum.energy = 0, [seasons]int64{}
	for i, a := range t.at {
		if a >= 0 {
			continue
		}
		l := &f.least[i]
		t.leastOf(l, i, f.left[i])
		for c, x := range l.power {
			sum.power[c] += x
		}
		for g, x := range l.weighed {
			sum.weighed[g] += x
		}
		sum.year += l.year
		for s, x := range l.energy {
			sum.energy[s] += x
		}
	}
}

func (t *tree) leastOf(l *least, i int, left []int) {
	options := t.rooms[i].options
	first := &options[left[0]]
	copy(l.power, first.power)
	l.year, l.energy = yearly(first.energy), first.energy
	for _, o := range left[1:] {
		for c, x := range options[o].power {
			l.power[c] = min(l.power[c], x)
		}
		l.year = min(l.year, yearly(options[o].energy))
		for s, x := range options[o].energy {
			l.energy[s] = min(l.energy[s], x)
		}
	}
	for g := range t.weights {
		of := t.weights[g].of[i]
		x := of[left[0]]
		for _, o := range left[1:] {
			x = min(x, of[o])
		}
		l.weighed[g] = x
	}
}

// bound returns a lower bound of all choices below a node:
//
//   - a column holds at least what is placed, and the least that each room left adds;
//   - the largest column is no less than any weighted mean, see weighing;
//   - energy costs what is placed, and the least of each room left.
func (t *tree) bound(f *frame) int64 {
	var low parts
	for c, x := range f.load {
		x += f.sum.power[c]
		for s := range seasons {
			if t.season[c]&(1<<s) != 0 {
				low.demand[s] = max(low.demand[s], x)
			}
		}
	}
	whole := int64(0)
	for g := range t.weights {
		w := &t.weights[g]
		x := w.bound(f.totals[g] + f.sum.weighed[g])
		if w.season == wholeCost {
			whole = max(whole, x)
		} else {
			low.demand[w.season] = max(low.demand[w.season], x)
		}
	}
	for s := range seasons {
		low.energy[s] = f.energy[s] + f.sum.energy[s]
	}
	return max(whole, t.goal.floor(low, yearly(f.energy)+f.sum.year))
}

// withOption returns a lower bound of all choices below a node in which a room takes an
// option, by columns and energy alone.
func (t *tree) withOption(f *frame, i, o int) int64 {
	opt, l := &t.rooms[i].options[o], &f.least[i]
	var low parts
	for c, x := range f.load {
		x += f.sum.power[c] - l.power[c] + opt.power[c]
		for s := range seasons {
			if t.season[c]&(1<<s) != 0 {
				low.demand[s] = max(low.demand[s], x)
			}
		}
	}
	for s := range seasons {
		low.energy[s] = f.energy[s] + f.sum.energy[s] - l.energy[s] + opt.energy[s]
	}
	return t.goal.floor(low, yearly(f.energy)+f.sum.year-l.year+yearly(opt.energy))
}

// weighed reports whether by every weighing a better choice may hold an option. The demand
// of one season says too little of a cost, and is not asked.
func (t *tree) weighed(f *frame, i, o int) bool {
	for g := range t.weights {
		w := &t.weights[g]
		if t.goal.objective == ForCost && w.season != wholeCost {
			continue
		}
		if w.bound(f.totals[g]+f.sum.weighed[g]-f.least[i].weighed[g]+w.of[i][o]) >= t.best {
			return false
		}
	}
	return true
}
