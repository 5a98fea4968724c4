package state
