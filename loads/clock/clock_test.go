package clock

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTimesOfDayHaveTwoDigitsEach(t *testing.T) {
	for s, want := range map[string]Minute{"00:00": 0, "06:00": 360, "18:30": 1110, "23:59": 1439, "24:00": Day, " 06:00 ": 360} {
		got, err := ParseMinute(s)
		require.NoError(t, err, s)
		assert.Equal(t, want, got, s)
	}
	for _, s := range []string{"", "6:00", "06:0", "06", "0600", "24:01", "25:00", "12:60", "-1:00", "+6:00", "-0:30", "06:+5", "06:-0", "ab:cd", "06:00:00", "06 :00", "٠٦:٠٠"} {
		_, err := ParseMinute(s)
		assert.EqualError(t, err, `"`+s+`" is not a time of day`)
	}
}

func TestEveryMinuteIsPrintedAndReadBack(t *testing.T) {
	for m := range Day + 1 {
		got, err := ParseMinute(m.String())
		require.NoError(t, err)
		require.Equal(t, m, got)
	}
	assert.InDelta(t, 7.5, Minute(450).Hours(), 0)
}
