package cli

import (
	encoding "encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"branchwork/cmd/internal/render/csv"
)

// writeTables writes files into a folder, all of them or none: into a new folder
// beside it first, which then takes its place. A folder that is there is replaced
// where an earlier report wrote it, and refused where it holds anything else.
func writeTables(folder string, files []csv.File) error {
	if sameFile(folder, ".") {
		return hint(errors.New("the tables cannot take the place of the folder that you are in"), "name a folder in it with --csv")
	}
	folder = filepath.Clean(folder)
	if real, err := filepath.EvalSymlinks(folder); err == nil {
		folder = real
	}
	there, err := ours(folder)
	if err != nil {
		return err
	}
	named := func(err error) error { return fmt.Errorf("cannot write %q: %w", folder, reason(err)) }
	if err := os.MkdirAll(filepath.Dir(folder), 0o777); err != nil {
		return named(err)
	}
	made, err := folderBeside(folder, "new")
	if err != nil {
		return named(err)
	}
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(made, f.Name), f.Bytes, 0o666); err != nil {
			return errors.Join(named(err), os.RemoveAll(made))
		}
	}
	if there {
		err = swap(made, folder)
	} else {
		err = os.Rename(made, folder)
	}
	if err != nil {
		return errors.Join(named(err), os.RemoveAll(made))
	}
	return nil
}

// swap puts a folder in the place of another, which is put back where that fails.
func swap(made, folder string) error {
	old, err := folderBeside(folder, "old")
	if err != nil {
		return err
	}
	aside := filepath.Join(old, filepath.Base(folder))
	if err := os.Rename(folder, aside); err != nil {
		return errors.Join(err, os.Remove(old))
	}
	if err := os.Rename(made, folder); err != nil {
		return errors.Join(err, os.Rename(aside, folder), os.Remove(old))
	}
	return os.RemoveAll(old)
}

// folderBeside creates a new folder beside another, with the rights that a plainly
// created one would have.
func folderBeside(folder, word string) (string, error) {
	for i := range 1000 {
		name := fmt.Sprintf("%s.%s%d.tmp", folder, word, i)
		err := os.Mkdir(name, 0o777)
		if !errors.Is(err, fs.ErrExist) {
			return name, err
		}
	}
	return "", errors.New("too many temporary folders stand beside it")
}

// ours reports whether a folder is there, and refuses one that holds what no
// report wrote: its list names every file that a report put there.
func ours(folder string) (there bool, err error) {
	entries, err := os.ReadDir(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, fmt.Errorf("cannot write tables to %q: %w", folder, reason(err))
	case len(entries) == 0:
		return true, nil
	}
	listed, err := contents(filepath.Join(folder, csv.Contents))
	for _, e := range entries {
		if err != nil || !e.Type().IsRegular() || !slices.Contains(listed, e.Name()) {
			return true, hint(fmt.Errorf("%q holds %q, which no report wrote there", folder, e.Name()), "name another folder with --csv; nothing was written")
		}
	}
	return true, nil
}

// contents reads which files an earlier report wrote.
func contents(name string) ([]string, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	records, err := encoding.NewReader(f).ReadAll()
	out := []string{csv.Contents}
	for _, r := range records {
		out = append(out, r[0])
	}
	return out, err
}
