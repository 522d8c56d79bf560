package inventory

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const leaving = `# an invented site
[circuits.LP1-1] # the first
spaces = [
  1, 3,  # both legs
]
[circuits.LP1-1.feeds]
bar = 4
fan = 2 # two

# the second
[circuits.LP1-2]
spaces = [2]
feeds.bar = 1
feeds.fan = 1
[tariff]
energy = "0.16 per kWh"`

func TestWhatIsTakenOutLeavesWithItsLines(t *testing.T) {
	for _, row := range []struct {
		path, gone string
	}{
		{"circuits.LP1-1", leaving[strings.Index(leaving, "[circuits.LP1-1]"):strings.Index(leaving, "\n# the second")]},
		{"circuits.LP1-1.feeds.fan", "fan = 2 # two\n"},
		{"circuits.LP1-1.spaces", "spaces = [\n  1, 3,  # both legs\n]\n"},
		{"circuits.LP1-2.feeds", "feeds.bar = 1\nfeeds.fan = 1\n"},
		{"tariff.energy", `energy = "0.16 per kWh"`},
	} {
		got, err := Rewrite([]byte(leaving), []Edit{{Path: strings.Split(row.path, ".")}})
		require.NoError(t, err, row.path)
		assert.Equal(t, strings.Replace(leaving, row.gone, "", 1), string(got), row.path)
	}
}

func TestAKeyBetweenBracesLeavesWithItsComma(t *testing.T) {
	for key, want := range map[string]string{"a": "{ b = { c = 1 }, d = 3 }", "b": "{ a = [1, 2], d = 3 }", "d": "{ a = [1, 2], b = { c = 1 } }", "b.c": "{ a = [1, 2], b = {  }, d = 3 }"} {
		got, err := Rewrite([]byte("feeds = { a = [1, 2], b = { c = 1 }, d = 3 } # all\n"), []Edit{{Path: append([]string{"feeds"}, strings.Split(key, ".")...)}})
		require.NoError(t, err)
		assert.Equal(t, "feeds = "+want+" # all\n", string(got))
	}
}

func TestWhatCannotBeTakenOutIsRefused(t *testing.T) {
	for path, why := range map[string]string{"circuits.LP1-9": "is not there", "list.0": "cannot be taken out"} {
		_, err := Rewrite([]byte("rooms.a = { size = 1 }\nlist = [1]\n"), []Edit{{Path: strings.Split(path, ".")}})
		assert.ErrorContains(t, err, why, path)
	}
}
