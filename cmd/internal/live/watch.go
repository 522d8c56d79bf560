package live

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"time"
)

// every is how often the file is looked at. It is asked for by its name, so that one
// renamed into its place, written over or reached through a link is seen alike, on
// every file system, network drives included; a watch of the system's own misses
// those.
const every = 150 * time.Millisecond

// patience is how long a file that changes at each look is waited for.
const patience = 2 * time.Second

// watch shows each version of the file until the context ends. A file is shown when
// two looks found it the same: an editor that empties it first and writes it then is
// not caught between the two.
func (s *Server) watch(ctx context.Context) {
	look := looker{file: s.maker.File, read: s.maker.Read}
	tick := time.NewTicker(every)
	defer tick.Stop()
	seen := look.now()
	s.show(s.made(seen.id, seen.src, seen.err))
	shown, last, since := seen.id, seen.id, time.Time{}
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		seen = look.now()
		switch {
		case seen.id == shown:
			last, since = seen.id, time.Time{}
			continue
		case since.IsZero():
			since = time.Now()
		}
		if seen.id == last || time.Since(since) > patience {
			s.show(s.made(seen.id, seen.src, seen.err))
			shown, since = seen.id, time.Time{}
		}
		last = seen.id
	}
}

// looker reads the file, unless everything that its folder tells of it says that it
// is as it was.
type looker struct {
	file string
	read func() ([]byte, error)
	last seen
	info os.FileInfo // before the last reading
	at   time.Time   // of it
}

// seen is the file at one look.
type seen struct {
	id  string // tells its text, or what is wrong with reading it
	src []byte
	err error
}

// settled is how much older than its reading a file must be for its time of change
// to be trusted: some file systems count in steps of two seconds.
const settled = 3 * time.Second

func (l *looker) now() seen {
	info, err := os.Stat(l.file)
	if err == nil && l.info != nil && os.SameFile(info, l.info) && info.Size() == l.info.Size() && info.ModTime().Equal(l.info.ModTime()) &&
		l.last.err == nil && l.at.Sub(info.ModTime()) > settled {
		return l.last
	}
	l.info, l.at = info, time.Now()
	src, err := l.read()
	switch {
	case err != nil:
		l.last = seen{idOf([]byte("cannot be read: " + err.Error())), nil, err}
	case l.last.id == "" || l.last.err != nil || !bytes.Equal(src, l.last.src):
		l.last = seen{idOf(src), src, nil}
	}
	return l.last
}

func idOf(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:12])
}
