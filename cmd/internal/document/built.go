package document

import (
	"strings"

	"branchwork/circuits"
	"branchwork/loads/inventory"
)

// RoomLeft is how many more units of an item a circuit would take, and the rule
// that stops the next.
type RoomLeft struct {
	Circuit string `json:"circuit"`
	Item    string `json:"item"`
	More    int    `json:"more"`
	Rule    string `json:"rule" jsonschema_description:"that stops the next one; empty where as many fit as were asked for"`
	Reason  string `json:"reason"`
}

// Measured is a clamp meter's reading beside what the loads explain.
type Measured struct {
	Amps          float64  `json:"amps"`
	In            string   `json:"in" jsonschema_description:"the state of the day or the time it was taken in; empty where that is not said"`
	PredictedAmps *float64 `json:"predicted_amps" jsonschema:"nullable"`
	OverPercent   *float64 `json:"over_percent" jsonschema:"nullable" jsonschema_description:"how far the reading lies above what is predicted, negative below"`
}

func measured(c circuits.Circuit) *Measured {
	amps, ok := c.Measured.Get()
	if !ok {
		return nil
	}
	d := &Measured{Amps: float64(amps), In: c.MeasuredIn, PredictedAmps: known(c.Predicted)}
	if p, ok := c.Predicted.Get(); ok && p > 0 {
		d.OverPercent = number(100 * (float64(amps)/float64(p) - 1))
	}
	return d
}

// tableOf names the kind of a load by the table that its path begins with.
func tableOf(path string) string {
	table, _, _ := strings.Cut(path, ".")
	switch table {
	case inventory.Fixtures:
		return "fixture"
	case inventory.Fans:
		return "fan"
	case inventory.Controllers:
		return "controller"
	}
	return "equipment"
}
