package cli

import (
	"fmt"
	"sort"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// codeFlag adds --code.
func codeFlag(cmd *cobra.Command, code *string) {
	cmd.Flags().StringVar(code, "code", "", "code profile (default: what the file says, or "+book.Default+")")
	complete(cmd, "code", book.Names)
}

func profileNamed(name string) (*codes.Profile, error) {
	p, ok := book.Profile(name)
	if !ok {
		return nil, hint(fmt.Errorf("no code profile %q", name), "one of: %s", strings.Join(book.Names(), ", "))
	}
	return p, nil
}

// parseSite reads an inventory and the code profile that it, or the command line,
// asks for. Problems of the file are printed here, all of them.
func parseSite(s *streams, shown string, src []byte, code string, width int) (*inventory.Inventory, *codes.Profile, error) {
	if code == "" {
		code = inventory.CodeNamed(src)
	} else if _, err := profileNamed(code); err != nil {
		return nil, nil, err
	}
	p, ok := book.Profile(code)
	if !ok { // the reader says so, with its place
		p, _ = book.Profile("")
	}
	inv, problems := inventory.Read(shown, src, vocabulary(p))
	if len(problems) > 0 {
		if err := inventory.Print(s.err, shown, src, problems, width); err != nil {
			return nil, nil, err
		}
		return nil, nil, errSaid
	}
	return inv, p, nil
}

func vocabulary(p *codes.Profile) inventory.Vocabulary {
	v := inventory.Vocabulary{Codes: book.Names(), Sizes: p.Wires.Sizes, Raceways: p.Wires.Raceways}
	for m := range p.Wires.Ampacity {
		v.Materials = append(v.Materials, m)
	}
	sort.Strings(v.Materials)
	for _, i := range p.Wires.Insulations {
		v.Insulations = append(v.Insulations, i.Name)
	}
	for _, r := range p.Receptacles {
		v.Receptacles = append(v.Receptacles, r.Name)
	}
	return v
}

// values are what the loads of a site need of the code.
func values(p *codes.Profile) loads.CodeValues {
	return loads.CodeValues{
		Motors: p.FullLoadCurrent,
		Outlet: p.Branch.OutletVA, OutletCite: p.Branch.OutletCite,
	}
}
