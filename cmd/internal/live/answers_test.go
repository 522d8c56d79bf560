package live

import (
	"context"
	"fmt"
	"net"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestQuestionsAreFewAtATimeAndEndWhenNobodyWaits(t *testing.T) {
	t.Parallel()
	s := &shelf{t: t, gate: make(chan struct{})}
	a := newAnswers(s.ask, s.maker().Say, make(chan struct{}, mostAtWork))
	ctx, leave := context.WithCancel(context.Background())
	var all sync.WaitGroup
	for i := range mostWaiting {
		all.Go(func() {
			_, err := a.to(ctx, fmt.Sprint(i))
			require.ErrorIs(t, err, context.Canceled)
		})
	}
	soon := func(what string, holds func() bool) {
		t.Helper()
		require.Eventually(t, holds, time.Minute, time.Millisecond, what)
	}
	soon("all wait, and a few are at work", func() bool { return a.waiting.Load() == mostWaiting && s.running.Load() == mostAtWork })
	_, err := a.to(ctx, "one more")
	require.ErrorIs(t, err, errBusy)
	leave()
	all.Wait()
	soon("work that nobody waits for ends", func() bool { return s.running.Load() == 0 })
	require.Less(t, s.asked.Load(), int64(mostWaiting), "what nobody waited for was begun")
	close(s.gate)
	got, err := a.to(t.Context(), "1")
	require.NoError(t, err)
	require.Equal(t, "answer to 1", string(got), "asked again")
	require.LessOrEqual(t, s.most.Load(), int64(mostAtWork))
	for i := range 3 * mostKept {
		_, err := a.to(t.Context(), fmt.Sprint("kept ", i))
		require.NoError(t, err)
	}
	require.LessOrEqual(t, len(a.made), mostKept)
}

// A file that is saved again while questions are at work brings no more to work.
func TestQuestionsOfTwoVersionsShareTheirSlots(t *testing.T) {
	t.Parallel()
	s := &shelf{t: t, gate: make(chan struct{})}
	server := newServer(&net.TCPAddr{}, s.maker())
	older, newer := server.made("1", []byte("a"), nil), server.made("2", []byte("b"), nil)
	var all sync.WaitGroup
	ask := func(v *version) {
		for i := range mostAtWork {
			all.Go(func() {
				_, err := v.answers.to(t.Context(), fmt.Sprint(i))
				require.NoError(t, err)
			})
		}
	}
	ask(older)
	require.Eventually(t, func() bool { return s.running.Load() == mostAtWork }, time.Minute, time.Millisecond)
	ask(newer)
	require.Never(t, func() bool { return s.running.Load() > mostAtWork }, 200*time.Millisecond, time.Millisecond)
	close(s.gate)
	all.Wait()
	require.Equal(t, int64(2*mostAtWork), s.asked.Load(), "all are answered in the end")
	require.Equal(t, int64(mostAtWork), s.most.Load())
}
