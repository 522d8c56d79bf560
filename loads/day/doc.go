// Package day works 24 hours of a site: power, energy and what they cost, and the
// starts of the photoperiods that make the peak or the cost least.
//
// # What runs when
//
// Every load has a window of the clock, and lights brighten and dim over the room's
// ramp. Within its window a load runs all the time, or the share that its duty states,
// or the share that the room asks for: cooling, dehumidifying and heating whose duty is
// not stated follow the room's heat balance of that hour. Energy rests on the mean day
// of that balance.
//
// Loads that run only part of the time are cycling loads. They are counted twice:
//
//   - running: at their mean power, which is what energy is made of;
//   - coincident: at full draw in every quarter-hour in which they run at all, all at
//     once, on the worst of the mean, the summer and the winter day. One quarter-hour of
//     a month in which they coincide sets the demand charge, and a month has some 2,900.
//
// # Figures
//
// Power is the mean of fixed quarter-hours by the clock, 00:00 to 00:15 and so on, as a
// demand meter takes it. Apparent power is the sum of the loads' volt-amperes at their
// full-power power factor, which is never less than the true sum of the phasors. A month
// is 365/12 days; five sevenths of them are weekdays, holidays not told apart; summer is
// June to September.
//
// A load whose watts are not known is left out, listed under Missing, and makes every
// total that it belongs to a least value. An hour without a price is listed as a gap and
// makes the cost a least value; it is never free in silence.
//
// # What it is not
//
// It holds no weather but the heat balance's three days, no solar power, no battery, no
// fixed charge, tax or power-factor clause of a tariff. Start-up currents last for
// fractions of a second and do not enter a 15-minute mean. A panel's other_load is not
// in the file item by item and is in none of the figures.
//
// A schedule is no interlock: what Stagger saves on the bill it saves on the service
// only where rooms are interlocked, and that is the code profile's question.
package day
