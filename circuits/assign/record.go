package assign

import (
	"fmt"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// recordVA writes down how a panel's volt-amperes add up.
func (pl *planner) recordVA(w *steps.Work, connected, demand []part) {
	in := func(list []part) []steps.Input {
		out := make([]steps.Input, len(list))
		for i, p := range list {
			out[i] = steps.In(p.through, p.va, "VA")
		}
		return out
	}
	w.Add(steps.Result("connected apparent power", "Σ S", sum(connected), "VA", steps.Cite{}, in(connected)...))
	w.Add(steps.Result("calculated load: continuous load with its allowance, interlocked loads once", "Σ k · S", sum(demand), "VA",
		pl.p.Feeders.DeviceCite, in(demand)...))
}

// recordLegs writes down how the current of each leg adds up from what hangs on
// it. Currents are split into the part in phase with the first leg's voltage and
// the part at right angles to it, because currents of different legs do not add
// up like numbers.
func (pl *planner) recordLegs(w *steps.Work, x inventory.Panel, k loaded, symbol string) {
	name := k.state
	if name == "" {
		name = "everything on, with the allowance for continuous load"
	}
	for leg := range x.System.Legs {
		var order []string
		sums := map[string]complex128{}
		for _, b := range k.branches {
			j := panel.FlowOf(x.System, b.Branch).Legs[leg]
			if j == 0 {
				continue
			}
			if _, seen := sums[b.through]; !seen {
				order = append(order, b.through)
			}
			sums[b.through] += j
		}
		var p, q []steps.Input
		var total complex128
		for _, t := range order {
			total += sums[t]
			p = append(p, steps.In(t, real(sums[t]), "A"))
			q = append(q, steps.In(t, imag(sums[t]), "A"))
		}
		label := fmt.Sprintf("leg %s, %s", pl.p.Legs[leg], name)
		w.Add(steps.Result(label+": in phase with leg "+pl.p.Legs[0], "Σ "+symbol+" in phase", real(total), "A", steps.Cite{}, p...))
		w.Add(steps.Result(label+": at right angles", "Σ "+symbol+" at right angles", imag(total), "A", steps.Cite{}, q...))
		w.Add(steps.Result(label, "√(Ip · Ip + Iq · Iq)", k.legs[leg], "A", steps.Cite{}, steps.In("Ip", real(total), "A"), steps.In("Iq", imag(total), "A")))
	}
}

// otherLoad adds demand that the file does not list: a stated one as it is, a
// measured peak by the code's route for existing services, which puts an
// allowance on it and then takes only new load on top.
func (pl *planner) otherLoad(x inventory.Panel, out *circuits.Panel, w *steps.Work) {
	add := func(name string, i units.Current, factor float64, cite steps.Cite) {
		before, more := out.Required, units.Times(i, factor)
		out.Required += more
		out.DemandVA += units.Apparent(float64(more) * float64(x.System.LineToNeutral) * float64(x.System.Legs))
		w.Add(steps.Result("fullest leg with "+name, "I + k · Io", out.Required, "A", cite,
			steps.In("I", before, "A"), steps.In("k", factor, ""), steps.In("Io", i, "A")))
	}
	if x.OtherLoad.PerLeg.Known() || x.OtherLoad.Total.Known() {
		out.OtherLoad = units.Is(x.StatedLoad())
	}
	if i, ok := out.OtherLoad.Get(); ok {
		for k := range out.Legs {
			out.Legs[k] += i
		}
		add("the other load that the file states", i, 1, steps.Cite{})
	}
	if !x.MeasuredPeak.Known() {
		return
	}
	if pl.p.Service.PeakFactor == 0 {
		pl.assume("panels."+x.Name+".measured_peak", "not used", pl.p.Title+" as carried here has no rule for it; every load in the file counts instead", steps.CommonPractice)
		return
	}
	if i := x.StatedPeak(); i > 0 {
		out.MeasuredPeak = units.Is(i)
		add("the measured peak of what is there", i, float64(pl.p.Service.PeakFactor), pl.p.Service.Cite)
	}
}
