package cli

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOnlyALocaleThatSaysSoSpeaksUTF8(t *testing.T) {
	for _, c := range []struct {
		why  string
		env  map[string]string
		want bool
	}{
		{"nothing is set", nil, false},
		{"the usual one", map[string]string{"LANG": "en_US.UTF-8"}, true},
		{"in another spelling", map[string]string{"LANG": "de_DE.utf8"}, true},
		{"another encoding", map[string]string{"LANG": "en_US.ISO-8859-1"}, false},
		{"the plain locale", map[string]string{"LANG": "C"}, false},
		{"the first that is set decides", map[string]string{"LC_ALL": "C", "LANG": "en_US.UTF-8"}, false},
		{"an empty one is not set", map[string]string{"LC_ALL": "", "LC_CTYPE": "C.UTF-8"}, true},
	} {
		require.Equal(t, c.want, speaksUTF8(func(k string) string { return c.env[k] }), c.why)
	}
}

func TestBlocksNeedATerminalOrAWord(t *testing.T) {
	t.Setenv("LC_ALL", "C.UTF-8")
	for _, c := range []struct {
		why      string
		o        output
		terminal bool
		want     bool
	}{
		{"a terminal", output{colour: "auto"}, true, true},
		{"a pipe", output{colour: "auto"}, false, false},
		{"a file", output{colour: "auto", file: "x"}, true, false},
		{"a pipe that somebody reads", output{colour: "always"}, false, true},
		{"plain was asked for", output{colour: "never"}, true, false},
	} {
		require.Equal(t, c.want, c.o.blocks(&streams{blocks: c.terminal}), c.why)
	}
	t.Setenv("LC_ALL", "C")
	require.False(t, (&output{colour: "always"}).blocks(&streams{}), "the locale has no such characters")
}
