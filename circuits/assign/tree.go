package assign

import (
	"maps"

	"branchwork/loads/inventory"
)

// below returns a panel and all panels that it feeds, directly or not.
func (pl *planner) below(name string) map[string]bool {
	in := map[string]bool{name: true}
	for grew := true; grew; {
		grew = false
		for _, x := range pl.inv.Panels {
			if in[x.FedBy] && !in[x.Name] {
				in[x.Name], grew = true, true
			}
		}
	}
	return in
}

// upstream returns some panels with all that feed them, up to the service.
func upstream(inv *inventory.Inventory, panels map[string]bool) map[string]bool {
	in := maps.Clone(panels)
	for grew := true; grew; {
		grew = false
		for _, x := range inv.Panels {
			if in[x.Name] && x.FedBy != "" && !in[x.FedBy] {
				in[x.FedBy], grew = true, true
			}
		}
	}
	return in
}
