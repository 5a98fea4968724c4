package main

// speedLimit is a restricted area in which speed is restricted.
func speedLimit(name string, area polygon, more ...pair) feature {
	return feature{invented("RESARE", name, append([]pair{{"RESTRN", []string{"27"}}}, more...)...), area}
}

var bathingSeason = []pair{{"PERSTA", "--0515"}, {"PEREND", "--0915"}}

func inSeason(more ...pair) []pair { return append(more, bathingSeason...) }

func ruleFeatures() []feature {
	return []feature{
		speedLimit("Harbour, 5 kn", outline([2]float64{-4020, 1530}, [2]float64{-3720, 1530}, [2]float64{-3680, 2330},
			[2]float64{-3780, 2440}, [2]float64{-3960, 2440}, [2]float64{-4070, 2330}),
			pair{"speedLimit", 5}, pair{"speedUnits", "kn"}),
		speedLimit("Elbow Bay beach, 5 kn in summer", outline([2]float64{-60, 250}, [2]float64{430, 250}, [2]float64{640, 900},
			[2]float64{900, 1260}, [2]float64{1420, 1330}, [2]float64{1420, 1690}, [2]float64{0, 1500}),
			inSeason(pair{"vesselSpeedLimit", props{{"speedLimit", 5}, {"speedUnits", 4}}})...),
		speedLimit("Bar Bay, 10 km/h in summer", outline([2]float64{1700, 1800}, [2]float64{3000, 1800}, [2]float64{3050, 2100},
			[2]float64{2650, 2820}, [2]float64{2100, 2820}, [2]float64{1700, 2150}),
			inSeason(pair{"speedLimit", 10}, pair{"speedUnits", "km/h"})...),
		speedLimit("Cove, 8 kn in summer", outline([2]float64{3500, 1900}, [2]float64{4650, 1900}, [2]float64{4650, 2750},
			[2]float64{3500, 2750}), inSeason(pair{"speedLimit", 8}, pair{"speedUnits", 4})...),
		{invented("RESARE", "Creek, no wake", pair{"RESTRN", []string{"13"}}, pair{"CATREA", []string{"24"}}),
			outline([2]float64{-3960, 2440}, [2]float64{-3780, 2440}, [2]float64{-3540, 2780}, [2]float64{-3460, 3080},
				[2]float64{-3060, 3440}, [2]float64{-2920, 3800}, [2]float64{-3120, 3860}, [2]float64{-3260, 3540},
				[2]float64{-3660, 3180}, [2]float64{-3740, 2800})},
		{invented("RESARE", "Elbow Bay bathing area", inSeason(pair{"RESTRN", []string{"7"}}, pair{"CATREA", []string{"18"}})...),
			outline([2]float64{60, 1210}, [2]float64{330, 1180}, [2]float64{430, 1390}, [2]float64{110, 1480})},
		{invented("RESARE", "Harbour approach, no anchoring", pair{"RESTRN", []string{"1"}}),
			outline([2]float64{-4150, 950}, [2]float64{-3560, 950}, [2]float64{-3600, 1460}, [2]float64{-4120, 1460})},
		{invented("RESARE", "Hens bird sanctuary", pair{"RESTRN", []string{"7"}}, pair{"CATREA", []string{"5"}},
			pair{"PERSTA", "--0401"}, pair{"PEREND", "--0731"}),
			outline([2]float64{2700, -1350}, [2]float64{3300, -1420}, [2]float64{4000, -900}, [2]float64{4020, -430},
				[2]float64{3600, -450}, [2]float64{2700, -800})},
		{invented("CBLARE", "Hens cable", pair{"RESTRN", []string{"1", "24"}}), strip(60, 30, 2990, -960, 220)},
		{invented("CBLSUB", "Hens cable", pair{"CATCBL", 1}), path([2]float64{40, 36}, [2]float64{900, -210},
			[2]float64{2000, -640}, [2]float64{2990, -960})},
		{invented("ACHARE", "Elbow Bay anchorage", pair{"CATACH", []string{"8"}}),
			outline([2]float64{260, 820}, [2]float64{560, 820}, [2]float64{560, 1130}, [2]float64{330, 1150})},
		{invented("CTNARE", "Hook race", pair{"INFORM", "INVENTED: steep seas when the wind blows against the stream"}),
			outline([2]float64{700, -1950}, [2]float64{1500, -1950}, [2]float64{1600, -1200}, [2]float64{900, -1000})},
	}
}

func groundFeatures() []feature {
	area := func(natsur []string, p polygon) feature {
		return feature{invented("SBDARE", "", pair{"NATSUR", natsur}), p}
	}
	spotGround := func(code string, x, y float64) feature {
		return feature{invented("SBDARE", "", pair{"NATSUR", []string{code}}), pointAt(x, y)}
	}
	return []feature{
		area([]string{"4"}, outline([2]float64{120, 560}, [2]float64{640, 560}, [2]float64{760, 1200}, [2]float64{500, 1420}, [2]float64{150, 1350})),
		area([]string{"4", "1"}, outline([2]float64{2060, 2340}, [2]float64{2480, 2340}, [2]float64{2520, 2660}, [2]float64{2160, 2660})),
		area([]string{"1"}, outline([2]float64{2000, 1900}, [2]float64{2750, 1900}, [2]float64{2600, 2320}, [2]float64{2060, 2320})),
		area([]string{"9"}, outline([2]float64{900, -1650}, [2]float64{1500, -1650}, [2]float64{1500, -1100}, [2]float64{900, -900})),
		area([]string{"4"}, outline([2]float64{-2900, 500}, [2]float64{-2300, 500}, [2]float64{-2350, 1250}, [2]float64{-2700, 1250})),
		area([]string{"9", "4"}, outline([2]float64{-1350, 250}, [2]float64{-850, 250}, [2]float64{-950, 1000}, [2]float64{-1350, 1100})),
		spotGround("4", -3600, 1150), spotGround("1", -4300, 400), spotGround("6", 0, -2200),
		spotGround("5", 3800, 200), spotGround("4", 1500, 900), spotGround("1", -2000, -3300),
		spotGround("9", 3000, -700), spotGround("4", 4200, 1900),
	}
}

func nameFeatures() []feature {
	sea := func(name string, x, y float64) feature { return feature{invented("SEAARE", name), pointAt(x, y)} }
	ashore := func(name string, x, y float64) feature { return feature{invented("LNDRGN", name), pointAt(x, y)} }
	return []feature{
		sea("Elbow Bay", 800, 700), sea("Bar Bay", 2350, 2150), sea("Surf Bay", -1300, 500),
		sea("The Bar", 2080, 1580), sea("The Gat", 2430, 1420), sea("Drying Sands", -2650, 850),
		sea("Hook Ledge", 1180, -1350), sea("Cove", 4150, 2250), sea("Sound", 2100, -500),
		ashore("Long Head", -330, 500), ashore("Hook", 420, -640), ashore("Great Hen", 3150, -1050),
		ashore("Little Hen", 3800, -620), ashore("Creek", -3300, 3500), ashore("Western Point", -5400, 1500),
	}
}
