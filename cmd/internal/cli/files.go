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

// stdin names standard input on the command line.
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

func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// errThere is a file that is already there and may not be replaced.
var errThere = errors.New("the file is already there")

// writeWhole writes a file whole or not at all: beside it first, then renamed
// into place. A device or a pipe is written as it is.
func writeWhole(name string, data []byte, replace bool) error {
	if info, err := os.Stat(name); err == nil {
		switch {
		case !replace:
			return errThere
		case info.IsDir():
			return errors.New("it is a directory")
		case !info.Mode().IsRegular():
			return os.WriteFile(name, data, 0)
		}
	}
	if real, err := filepath.EvalSymlinks(name); err == nil {
		name = real
	}
	temp, err := beside(name)
	if err != nil {
		return err
	}
	_, err = temp.Write(data)
	err = errors.Join(err, temp.Close())
	if info, there := os.Stat(name); there == nil && err == nil {
		err = os.Chmod(temp.Name(), info.Mode().Perm())
	}
	if err == nil {
		err = os.Rename(temp.Name(), name)
	}
	if err != nil {
		return errors.Join(err, os.Remove(temp.Name()))
	}
	return nil
}

// beside creates a new file in the folder of another, with the rights that a
// plainly created file would have.
func beside(name string) (*os.File, error) {
	for i := range 1000 {
		temp := fmt.Sprintf("%s.%d.tmp", name, i)
		f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, errors.New("too many temporary files stand beside it")
}
