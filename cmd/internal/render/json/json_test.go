package json

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWhatIsNoNumberIsRefusedWhole(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		var b bytes.Buffer
		require.Error(t, Render(&b, map[string]any{"a": 1, "x": x}))
		require.Empty(t, b.String())
	}
}

func TestNoCharacterCanMoveACursor(t *testing.T) {
	in := "a\x1b[31m\u009b31m\u202e\u2028\U000e0041<b>&é漢"
	var b bytes.Buffer
	require.NoError(t, Render(&b, []string{in}))
	for _, c := range b.String() {
		require.True(t, c == '\n' || c >= ' ' && c != 0x7f && (c < 0x80 || c > 0x9f) && c != 0x202e && c < 0xe0000, "%q", c)
	}
	require.Contains(t, b.String(), "<b>&é漢", "what prints stays readable")
	var out []string
	require.NoError(t, json.Unmarshal(b.Bytes(), &out))
	require.Equal(t, in, out[0], "the escapes mean the same")
}
