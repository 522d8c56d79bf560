package xlsx

import (
	"archive/zip"
	"bytes"
	"io"
	"slices"
	"strings"
)

// ordered writes the parts of a workbook in the order of their names, the list of
// them first: the library leaves their order to chance.
func ordered(w io.Writer, workbook []byte) error {
	in, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		return err
	}
	slices.SortFunc(in.File, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) }) // "[" sorts before small letters
	out := zip.NewWriter(w)
	for _, part := range in.File {
		if err := out.Copy(part); err != nil {
			return err
		}
	}
	return out.Close()
}
