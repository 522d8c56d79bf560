package document

import (
	"fmt"
	"strings"

	"branchwork/loads/units"
)

// Unknown stands where a figure has a meaning and is not known.
const Unknown = "?"

// SecondaryOpen says of a transformer's secondary side that a feeder's figures end
// before it.
const SecondaryOpen = "NOT SIZED OR CHECKED: conductors with neutral, their overcurrent protection, grounding of the derived system"

// Words writes a conductor: "12 AWG copper THHN".
func (c Conductor) Words() string {
	parts := []string{Unknown}
	if c.Size != nil {
		parts[0] = *c.Size
	}
	for _, p := range []*string{c.Material, c.Insulation} {
		if p != nil {
			parts = append(parts, *p)
		}
	}
	s := strings.Join(parts, " ")
	if c.ParallelSets > 1 {
		s = fmt.Sprintf("%d sets of %s", c.ParallelSets, s)
	}
	return s
}

// Provisional goes behind how many of a panel's spaces are used, where breakers that
// the file does not list may stand in it.
func (p Panel) Provisional() string {
	if !p.Unlisted {
		return ""
	}
	says := "breakers of the other load are not listed"
	if p.OtherSpaces != nil {
		says = fmt.Sprintf("%d by breakers that it does not list", *p.OtherSpaces)
	}
	return " by what the file lists; " + says + "; the spaces shown for planned breakers are provisional"
}

// Outlet says what a circuit ends in.
func (c Circuit) Outlet() string {
	switch {
	case c.Wired:
		return "hard-wired"
	case c.Receptacle.Name == "":
		return Unknown
	}
	return c.Receptacle.Name
}

// GroundFault says which protection is called for, as far as that can be told; of
// an existing circuit also whether it is installed: first, where it is not.
func (c Circuit) GroundFault() string {
	s := "no GFCI called for"
	switch {
	case c.Protection.Open != "":
		s = "GFCI " + Unknown + " (location not stated)"
	case c.Protection.Needed:
		s = c.Protection.Class
		if c.Protection.TripMA != nil {
			s += ", trips from " + units.Round(*c.Protection.TripMA, 1) + " mA"
		}
	}
	switch {
	case !c.Existing:
		return s
	case c.GFCI == nil:
		return s + "; not known whether installed"
	case *c.GFCI:
		return s + "; installed"
	case c.Protection.Needed:
		return "NONE INSTALLED; needs " + s
	}
	return s + "; not installed"
}
