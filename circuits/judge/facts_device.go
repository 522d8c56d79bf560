package judge

import "branchwork/circuits"

// deviceFor names the first load of a circuit whose nameplate or motor rule sets the
// device of a circuit of its own.
func (j *judgment) deviceFor(c *circuits.Circuit) string {
	for _, cl := range c.Loads {
		if j.setsDevice(cl) {
			return cl.Item
		}
	}
	return ""
}

// byEquipment reports whether the only load of a circuit sets its device: marked
// equipment, or a motor wired permanently.
func (j *judgment) byEquipment(c *circuits.Circuit) bool {
	if len(c.Loads) != 1 || c.Loads[0].Count != 1 {
		return false
	}
	return j.setsDevice(c.Loads[0])
}

func (j *judgment) setsDevice(cl circuits.Load) bool {
	l, _ := j.set.Named(cl.Item)
	return cl.Draw.MinCircuit.Known() || cl.Draw.MaxDevice.Known() || cl.Draw.Motor && !l.Corded
}
