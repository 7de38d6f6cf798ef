// Package suit answers "what to plant here": kinds ranked for a spot by its
// light, ground, cold, room and colour and by the weeks that lack flower, and
// the few that together fill those weeks best.
//
// Start in suit.go. factors.go lists what a kind is judged by, each factor a
// score from 0 to 1 with the code of a reason: light.go, ground.go, cold.go,
// room.go and colour.go. What nothing is known of counts neither way and is
// named. Some things rule a kind out, and that is named too, never silent.
// weeks.go is when a kind flowers, gain.go what flower in a week is worth beside
// what there is, and set.go chooses.
//
// Cautions go with every kind and rule nothing out: what is planted near
// children or animals is the gardener's to decide. No caution recorded does not
// mean safe, and nothing here is advice to eat a plant.
package suit
