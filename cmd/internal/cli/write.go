package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"syscall"
)

// Why a file is not written.
var (
	errThere   = errors.New("the file is already there")
	errStopped = errors.New("stopped by a signal")
)

// writeWhole writes a file whole or not at all: beside its place first, forced to
// the disk, then renamed into place with the rights of the file that it replaces.
// A link is followed: what it leads to is replaced, and the link stays. A device or
// a pipe is written as it is. With replace false nothing that is there is touched.
func writeWhole(name string, data []byte, replace bool) error {
	return writeAnswer(name, text(data), replace)
}

// writeAnswer is writeWhole of what is made while it is written.
func writeAnswer(name string, a answer, replace bool) error {
	if name == "" {
		return errors.New("a file needs a name")
	}
	name, old, err := landing(name)
	switch {
	case err != nil:
		return err
	case old == nil:
		return settle(name, a, 0o666, arrive)
	case !replace:
		return errThere
	case old.IsDir():
		return errors.New("it is a directory")
	case !old.Mode().IsRegular():
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_TRUNC, 0)
		if err != nil {
			return err
		}
		return errors.Join(buffered(f, a), f.Close())
	}
	// A rename asks the folder only; a file that may not be written stays.
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	return settle(name, a, old.Mode().Perm(), os.Rename)
}

// landing follows the links of a name to where it would be written, and returns
// what is there, nil where nothing is.
func landing(name string) (string, fs.FileInfo, error) {
	info, err := os.Lstat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return name, nil, nil
	case err != nil:
		return name, nil, err
	case info.Mode()&fs.ModeSymlink == 0:
		return name, info, nil
	}
	end, err := filepath.EvalSymlinks(name)
	if err != nil {
		return name, nil, errors.New("it is a link that leads nowhere")
	}
	info, err = os.Stat(end)
	return end, info, err
}

// settle writes a file beside its place and moves it there. Whatever ends it early,
// a signal included, takes what it wrote away with it.
func settle(name string, a answer, rights fs.FileMode, into func(from, to string) error) error {
	stop := make(chan os.Signal, 1)
	if list := heeded(os.Interrupt, syscall.SIGTERM, syscall.SIGHUP); len(list) > 0 { // of an empty list all would be
		signal.Notify(stop, list...)
		defer signal.Stop(stop)
	}
	temp, err := beside(name, rights)
	if err != nil {
		return err
	}
	err = buffered(heedful{temp, stop}, a)
	if err == nil {
		err = temp.Sync()
	}
	err = errors.Join(err, temp.Close())
	if err == nil && isThere(name) { // the mask of the process does not bear on what was there
		err = os.Chmod(temp.Name(), rights)
	}
	if err == nil {
		err = into(temp.Name(), name)
	}
	if err != nil {
		return errors.Join(err, os.Remove(temp.Name()))
	}
	syncFolder(filepath.Dir(name))
	return nil
}

// heeded are those of some signals that end what is going on. One that the process
// was started to ignore, as nohup does, stays ignored.
func heeded(all ...os.Signal) []os.Signal { return slices.DeleteFunc(all, signal.Ignored) }

// arrive moves a file to a name that nothing has, also where one came to have it
// since it was last looked at.
func arrive(from, to string) error {
	err := os.Link(from, to)
	switch {
	case err == nil:
		return os.Remove(from)
	case isThere(to):
		return errThere
	}
	return os.Rename(from, to) // no hard links here
}

// piece is how much is written between two looks for a signal.
const piece = 1 << 20

// buffered prints an answer in pieces.
func buffered(w io.Writer, a answer) error {
	b := bufio.NewWriterSize(w, piece)
	if err := a(b); err != nil {
		return err
	}
	return b.Flush()
}

// heedful writes until a signal comes.
type heedful struct {
	w    io.Writer
	stop <-chan os.Signal
}

func (h heedful) Write(data []byte) (done int, err error) {
	for done < len(data) {
		n, err := h.w.Write(data[done:min(done+piece, len(data))])
		if done += n; err != nil {
			return done, err
		}
		select {
		case <-h.stop:
			return done, errStopped
		default:
		}
	}
	return done, nil
}

// syncFolder makes a rename last through a loss of power, where the system can.
func syncFolder(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = f.Sync()
		_ = f.Close()
	}
}

// beside creates a new file in the folder of another, with the rights given less
// what the mask of the process takes away.
func beside(name string, rights fs.FileMode) (*os.File, error) {
	for i := range 1000 {
		temp := fmt.Sprintf("%s.%d.tmp", name, i)
		f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, rights|0o200)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, errors.New("too many temporary files stand beside it")
}
