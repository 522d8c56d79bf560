package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// mostBytes is the largest inventory that is read.
const mostBytes = 64 << 20

// stdin names standard input on the command line, and standard output where an
// answer is written.
const stdin = "-"

// readInput reads the file that an argument names.
func readInput(s *streams, name string) (src []byte, shown string, err error) {
	if name == stdin {
		src, err = readAll(s.in)
		return src, "standard input", named("standard input", err)
	}
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, name, hint(fmt.Errorf("no file %q", name), "branchwork new FILE writes one to start from")
	}
	if err != nil {
		return nil, name, named(quoted(name), err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, name, fmt.Errorf("%q is a directory, not a file", name)
	}
	src, err = readAll(f)
	return src, name, named(quoted(name), err)
}

func quoted(name string) string { return fmt.Sprintf("%q", name) }

func named(name string, err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, errTooLarge):
		return fmt.Errorf("%s is larger than %d MiB", name, mostBytes>>20)
	}
	return fmt.Errorf("cannot read %s: %w", name, reason(err))
}

var errTooLarge = errors.New("too large")

func readAll(r io.Reader) ([]byte, error) {
	src, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err == nil && len(src) > mostBytes {
		err = errTooLarge
	}
	return src, err
}

func isThere(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
}

// sameFile reports whether two names lead to one file, also where it is not there
// yet.
func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	if errX == nil && errY == nil {
		return os.SameFile(x, y)
	}
	return errX != nil && errY != nil && spelled(a) == spelled(b)
}

// spelled is the one spelling of a name whose folder is there.
func spelled(name string) string {
	dir, err := filepath.EvalSymlinks(filepath.Dir(name))
	if err != nil {
		dir = filepath.Dir(name)
	}
	full, err := filepath.Abs(filepath.Join(dir, filepath.Base(name)))
	if err != nil {
		return name
	}
	return full
}
