// Package loads turns the items of an inventory into electrical loads: what
// each unit draws at each voltage, when, and how that was found.
//
// A load is sized on nameplate or boosted power, never on its dimmed level: a
// dimming control that fails goes to full. The level acts on running power,
// which heat and energy use.
//
// Whether a load is continuous is a code's question. This package states the
// fact (windows, longest unbroken run) and the code profile answers.
package loads
