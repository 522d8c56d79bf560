package inventory

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the expected messages anew; refused in continuous integration")

const brokenFolder = "../../testdata/broken"

// shown prints the problems of a file as a user sees them.
func shown(t testing.TB, name string, src []byte, width int) string {
	t.Helper()
	_, problems := Read(name, src, testWords())
	var b strings.Builder
	require.NoError(t, Print(&b, name, src, problems, width))
	return b.String()
}

// TestBadInputGetsTheseMessages reads every file of testdata/broken and
// compares what is printed with the file beside it, byte for byte.
func TestBadInputGetsTheseMessages(t *testing.T) {
	if *update && os.Getenv("CI") != "" {
		t.Fatal("expected messages are not written in continuous integration")
	}
	files, err := filepath.Glob(brokenFolder + "/*.toml")
	require.NoError(t, err)
	require.Greater(t, len(files), 70, "the folder is there and full")
	for _, path := range files {
		name := filepath.Base(path)
		t.Run(strings.TrimSuffix(name, ".toml"), func(t *testing.T) {
			src, err := os.ReadFile(path)
			require.NoError(t, err)
			got := shown(t, name, src, 80)
			require.NotEmpty(t, got, "a broken file has a problem")
			want := strings.TrimSuffix(path, ".toml") + ".want"
			if *update {
				require.NoError(t, os.WriteFile(want, []byte(got), 0o644))
				return
			}
			expected, err := os.ReadFile(want)
			require.NoError(t, err, "run with -update, then read the new file line by line")
			assert.Equal(t, string(expected), got)
		})
	}
}

func TestEveryExpectedMessageHasItsFile(t *testing.T) {
	wants, err := filepath.Glob(brokenFolder + "/*.want")
	require.NoError(t, err)
	require.NotEmpty(t, wants)
	for _, w := range wants {
		assert.FileExists(t, strings.TrimSuffix(w, ".want")+".toml", "an orphan")
	}
}

// The same file with the line ends of Windows has the same problems at the same
// places, in the same words.
func TestLineEndsOfWindowsChangeNoMessage(t *testing.T) {
	files, err := filepath.Glob(brokenFolder + "/*.toml")
	require.NoError(t, err)
	tried := 0
	for _, path := range files {
		src, err := os.ReadFile(path)
		require.NoError(t, err)
		if strings.Contains(string(src), "\r") || strings.Contains(path, "/bytes-") {
			continue
		}
		tried++
		name := filepath.Base(path)
		assert.Equal(t, shown(t, name, src, 80), shown(t, name, []byte(strings.ReplaceAll(string(src), "\n", "\r\n")), 80), name)
	}
	require.Greater(t, tried, 60)
}

// A name of a code that is not there cannot be looked up before the file is known to
// be TOML, and what is nested without end is refused before anything is looked up.
func TestWordsAreAskedForTheCodeOfTheFile(t *testing.T) {
	asked := []string{}
	words := func(code string) Vocabulary {
		asked = append(asked, code)
		return testWords()
	}
	_, problems := ReadFor("a.toml", []byte("[site]\nname = \"A\"\nuse = \"dwelling\"\ncode = \"nec-2020\"\n"), words)
	assert.Empty(t, problems)
	_, problems = ReadFor("a.toml", []byte("[site]\nname = \"A\"\nuse = \"dwelling\"\n"), words)
	assert.Empty(t, problems)
	_, problems = ReadFor("a.toml", []byte("[site]\ncode = \"nec-2020\"\nx = "+strings.Repeat("{a=", 1<<17)), words)
	assert.Len(t, problems, 1)
	_, problems = ReadFor("a.toml", []byte("site = 1"), words)
	assert.NotEmpty(t, problems)
	assert.Equal(t, []string{"nec-2020", "", ""}, asked)
}
