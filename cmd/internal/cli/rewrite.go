package cli

import (
	"bytes"
	"errors"
	"fmt"
	"os"

	"branchwork/codes"
	"branchwork/loads/inventory"
)

// siteText is an inventory with the text that it was read from.
type siteText struct {
	src []byte
	inv *inventory.Inventory
	p   *codes.Profile

	spare bool // a circuit may feed nothing: what it fed is taken out before more is asked
}

// words are those that the text is read with.
func (x siteText) words() inventory.Vocabulary {
	v := vocabulary(x.p)
	v.Spare = x.spare
	return v
}

// rewritten returns the text with keys set, and what it reads as. A text of ours
// that cannot be read is our own fault.
func (x siteText) rewritten(edits []inventory.Edit) ([]byte, *inventory.Inventory, error) {
	src, err := inventory.Rewrite(x.src, edits)
	if err != nil {
		return nil, nil, hint(fmt.Errorf("cannot write into %q: %w", x.inv.File, err), "write each table with a header of its own, as branchwork new does")
	}
	inv, problems := inventory.Read(x.inv.File, src, x.words())
	if len(problems) > 0 {
		f := fault{says: "the changed inventory cannot be read"}
		for _, p := range problems {
			f.complaints = append(f.complaints, fmt.Sprintf("%d:%d: %s: %s", p.At.Line, p.At.Column, p.Path, p.Says))
		}
		return nil, nil, f
	}
	return src, inv, nil
}

// mayWrite refuses, before any work is done, a name that a changed inventory
// must not be written to: that of the inventory itself where it was not asked for
// in so many words, and any file that is there.
func (o *output) mayWrite(name string) error {
	switch {
	case name == "" || name == o.input && name != stdin:
		return nil
	case name == stdin:
		return hint(errors.New("--write - is not a file"), "name a new file")
	case o.file != "" && sameFile(name, o.file):
		return hint(fmt.Errorf("--write and --output both name %q", name), "name two files; nothing was written")
	case o.input != "" && sameFile(name, o.input):
		return hint(fmt.Errorf("%q is the inventory itself by another name", name), "name a new file, or name it %q to write over it; nothing was written", o.input)
	case isThere(name):
		return hint(fmt.Errorf("%q is already there", name), "name a new file; nothing was written")
	}
	return nil
}

// writeInventory writes a changed inventory, whole or not at all; over the one that
// was read only while that is as it was.
func (o *output) writeInventory(s *streams, name string, read, src []byte) error {
	over := name == o.input
	if over {
		if now, err := os.ReadFile(name); err == nil && !bytes.Equal(now, read) {
			return hint(fmt.Errorf("%q was changed by somebody else since it was read", name), "run the command again; nothing was written")
		}
	}
	if err := writeWhole(name, src, over); err != nil {
		return fmt.Errorf("cannot write %q: %w", name, reason(err))
	}
	s.notice("wrote %q", name)
	return nil
}
