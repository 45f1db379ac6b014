export { defaultRate, labourRate } from './queries/labour-rates.query.js';
export { shopSettings, type ShopSettings } from './queries/shop-settings.query.js';
export { addLabourRate } from './use-cases/add-labour-rate.js';
export { addStaffMember, type NewStaffMember } from './use-cases/add-staff-member.js';
export { addTax } from './use-cases/add-tax.js';
export { createShop, type NewShop } from './use-cases/create-shop.js';
export { enrolDevice } from './use-cases/enrol-device.js';
export { setPassword } from './use-cases/set-password.js';
export { setPin } from './use-cases/set-pin.js';
