## plain: what can melt

substance-ice = ice
substance-candle-wax = candle wax
substance-butter = butter
substance-chocolate = chocolate
