import { Module } from '@nestjs/common';
import { BenefitWeightsController } from './benefit-weights.controller.js';
import { DevicesController } from './devices.controller.js';
import { LabourRatesController } from './labour-rates.controller.js';
import { PriceRulesController } from './price-rules.controller.js';
import { SessionsController } from './sessions.controller.js';
import { ShopController } from './shop.controller.js';
import { DerivedTokens } from './sign-in/opaque-token.js';
import { PasswordSignIn } from './sign-in/password-sign-in.js';
import { Sessions } from './sign-in/sessions.js';
import { Tablets } from './sign-in/tablets.js';
import { StaffController } from './staff.controller.js';
import { TaxesController } from './taxes.controller.js';

@Module({
  controllers: [
    SessionsController,
    DevicesController,
    StaffController,
    ShopController,
    BenefitWeightsController,
    PriceRulesController,
    LabourRatesController,
    TaxesController,
  ],
  providers: [DerivedTokens, PasswordSignIn, Tablets, Sessions],
})
export class IdentityModule {}
