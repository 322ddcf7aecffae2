"""How a candle burns: wicks, tests, rates, hours, advice."""
